import type { Metadata } from "next";
import { CautionNote } from "@/app/_components/caution-note";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import { pageWho } from "@/lib/server/page-who";
import { workshopPower, type PowerScreen } from "@/lib/server/queries/workshop-power";
import { PowerForm } from "./power-form";

export const metadata: Metadata = { title: "Power" };

export default async function PowerPage() {
  const who = await pageWho("manage-power", paths.power);
  const { limitKw, kilns } = await workshopPower(who, undefined);
  return (
    <Page>
      <PageHead title="Power" lead="The most kilowatts that kilns may draw while they heat at the same time, as the electrician gave it." />
      <Panel title="The electrician’s limit" lead="While a kiln dries, climbs and flows, it counts with its full rated power.">
        <PowerForm limitKw={limitKw} />
        {kilns.length > 0 && <p>{together(kilns)}</p>}
      </Panel>
      <CautionNote>
        <p>
          This figure comes from a licensed electrician who knows this building. Lehrbook only adds up rated kilowatts; it
          works out no cable, no breaker and no supply, and takes no part of that work. Local electrical codes decide.
        </p>
      </CautionNote>
    </Page>
  );
}

/** "Curlew 10.5 kW and Heron 15 kW: 25.5 kW when all of them heat at once." */
function together(kilns: PowerScreen["kilns"]): string {
  const each = new Intl.ListFormat("en-GB").format(kilns.map(({ name, kw }) => `${name} ${kw} kW`));
  const sum = Math.round(kilns.reduce((total, { kw }) => total + kw, 0) * 10) / 10;
  return kilns.length === 1 ? `${each} is the only kiln.` : `${each}: ${sum} kW when all of them heat at once.`;
}
