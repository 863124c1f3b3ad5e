import type { Metadata } from "next";
import { CautionNote } from "@/app/_components/caution-note";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import { pageWho } from "@/lib/server/page-who";
import { workshopPower, type PowerScreen } from "@/lib/server/queries/workshop-power";
import { removeTariffAction } from "./actions";
import { PowerForm } from "./power-form";
import { TariffForm } from "./tariff-form";

export const metadata: Metadata = { title: "Power" };

export default async function PowerPage() {
  const who = await pageWho("manage-power", paths.power);
  const { limitKw, kilns, tariff } = await workshopPower(who, undefined);
  return (
    <Page>
      <PageHead title="Power" lead="The most kilowatts that kilns may draw while they heat at the same time, and what a kilowatt-hour costs." />
      <Panel title="The electrician’s limit" lead="While a kiln dries, climbs and flows, it counts with its full rated power.">
        <PowerForm limitKw={limitKw} />
        {kilns.length > 0 && <p>{together(kilns)}</p>}
      </Panel>
      <Panel
        title="The tariff"
        lead={`Prices of a kilowatt-hour by weekday and hour, on the clock of ${who.timeZone}. Castings and firings show their cost by it.`}
        actions={tariff !== null && <ConfirmWithReason trigger="Take it away" look="bare" title="Take the tariff away?" confirmText="Take it away" reason="offered" action={removeTariffAction}><p>Castings and firings then show kilowatt-hours without a cost.</p></ConfirmWithReason>}
      >
        {tariff === null && <p>No tariff is set yet. Every hour of the week needs a price; with one price all week, one band is enough.</p>}
        <TariffForm tariff={tariff} />
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
