import type { CastingForm } from "@/lib/contracts/casting-fields";
import { readCastingForm } from "@/lib/contracts/casting-form";
import type { ReadMesh } from "@/lib/contracts/mesh";
import { kilnFit } from "@/lib/domain/booking/fits";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { inputForKiln, type KilnToPlan } from "@/lib/domain/firing/for-kiln";
import { planFiring } from "@/lib/domain/firing/plan";
import type { Problem } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { meshIn } from "./field-set";
import { inFormWords } from "./form-problem";

/** The casting as one kiln would fire it. `reasons` say why it does not fit; none when it does. */
export type KilnAnswer = { readonly kiln: KilnToPlan; readonly plan: CastingPlan | null; readonly reasons: readonly string[] };

export type Answer = {
  readonly input: CastingInput;
  /** The body of a piece that is given by a mesh. */
  readonly mesh: MeshBody | undefined;
  /** For a large ideal kiln: what the load itself is like, whichever kiln takes it. */
  readonly general: CastingPlan;
  readonly kilns: readonly KilnAnswer[];
};

export type LiveAnswer =
  | { readonly state: "ready"; readonly answer: Answer; readonly problems: readonly [] }
  /** The form can be read; what follows from it is being worked out. `problems` are those found before that still stand. */
  | { readonly state: "working"; readonly answer: null; readonly problems: readonly Problem[] }
  /** `problems` of code "missing" are fields still to fill; the others are faults. */
  | { readonly state: "unfinished" | "refused"; readonly answer: null; readonly problems: readonly Problem[] };

/** What can be told at once of a form that cannot be read yet; undefined when it can. */
export function unreadable(form: CastingForm, read: ReadMesh | null): LiveAnswer | undefined {
  const input = readCastingForm(form, meshIn(form, read));
  return input.ok ? undefined : notYet(input.problems, form);
}

/** Everything that follows from what has been typed so far, in every kiln of the workshop. Takes a while: see `WORK`. */
export function liveAnswer(form: CastingForm, kilns: readonly KilnToPlan[], read: ReadMesh | null): LiveAnswer {
  const mesh = meshIn(form, read);
  const input = readCastingForm(form, mesh);
  if (!input.ok) return notYet(input.problems, form);
  const general = planFiring(input.value, mesh);
  if (!general.ok) return notYet(general.problems, form);
  return {
    state: "ready",
    problems: [],
    answer: {
      input: input.value,
      mesh,
      general: general.value,
      kilns: kilns.map((kiln) => {
        const planned = planFiring(inputForKiln(input.value, kiln), mesh);
        const fit = kilnFit(general.value, kiln);
        if (!planned.ok) return { kiln, plan: null, reasons: fit.length > 0 ? fit : planned.problems.map((problem) => problem.message) };
        return { kiln, plan: planned.value, reasons: kilnFit(planned.value, kiln) };
      }),
    },
  };
}

function notYet(problems: readonly Problem[], form: CastingForm): LiveAnswer {
  const worded = problems.map((problem) => inFormWords(problem, form["piece.shape"]));
  return { state: worded.every((problem) => problem.code === "missing") ? "unfinished" : "refused", answer: null, problems: worded };
}

/** The kiln whose firing is shown: the chosen one, else the fitting one that is done soonest. */
export function shownKiln(answer: Answer, chosen: string | null): KilnAnswer | undefined {
  const mine = answer.kilns.find((one) => one.kiln.equipmentId === chosen && one.plan !== null);
  if (mine !== undefined) return mine;
  const fitting = answer.kilns.filter((one) => one.plan !== null && one.reasons.length === 0);
  return fitting.sort((a, b) => heldHours(a) - heldHours(b))[0];
}

function heldHours({ plan }: KilnAnswer): number {
  return plan?.reservation.hours ?? Infinity;
}
