import { benchAccepting } from "./settling/accepting";
import { benchMany } from "./settling/many";
import { benchBounds, benchFreshSeasons, benchKnownSeasons, benchProvenSeasons } from "./settling/seasons";
import { benchMade, benchPublished } from "./settling/tardiness";
import { benchWholeSeason } from "./settling/whole-season";
import { benchProofs, benchSamePlan, benchWays } from "./settling/ways";

/** About four minutes on a quiet machine. */
export async function benchSettling(): Promise<void> {
  await benchWays();
  await benchProofs();
  await benchAccepting();
  await benchSamePlan();
  await benchBounds();
  for (const size of [40, 50]) await benchPublished(size, 1, "all of 250 in 5 s");
  await benchKnownSeasons();
  await benchFreshSeasons();
  await benchWholeSeason(20, [1, 2]);
}

/** What takes longer: up to an hour. */
export async function benchSettlingLong(): Promise<void> {
  await benchPublished(100, 8, "120 of 125 in 8 s each");
  await benchMade(50, 25, 1);
  await benchMade(100, 25, 8);
  await benchMany();
  await benchProvenSeasons();
  await benchWholeSeason(120, [1, 2, 3, 4]);
}
