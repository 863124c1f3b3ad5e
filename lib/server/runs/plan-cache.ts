import { planFiring } from "@/lib/domain/firing/plan";
import { keepLast } from "@/lib/domain/numeric/keep-last";

/** A plan is some ten kilobytes; a casting has one for each kind of kiln. */
const MOST_KEPT = 2000;

/**
 * The plan of an input, worked out once in a process. An input holds all that its plan depends on: the kiln's figures
 * and margin too, and a mesh by its id, which never changes once it was read.
 */
export const plannedOnce = keepLast(planFiring, MOST_KEPT);
