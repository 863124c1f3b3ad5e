import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { Notice } from "@/app/_components/notice";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { makeKilnFeedAction, revokeKilnFeedAction } from "@/app/_feeds/actions";
import { FeedPanel } from "@/app/_feeds/feed-panel";
import { EQUIPMENT_FIELDS } from "@/lib/contracts/equipment-fields";
import { paths } from "@/lib/contracts/paths";
import type { Equipment } from "@/lib/domain/booking/equipment";
import { pageWho } from "@/lib/server/page-who";
import { kilnFeed } from "@/lib/server/queries/kiln-feed";
import { kilnRecordScreen } from "@/lib/server/queries/kiln-record";
import { workshopEquipment } from "@/lib/server/queries/workshop-equipment";
import { restoreAction, retireAction } from "../actions";
import { EquipmentForm } from "../equipment-form";
import { OutageForm } from "../outage-form";
import { OutageList } from "../outage-list";
import { KilnRecord } from "./kiln-record";

export const metadata: Metadata = { title: "Equipment" };

export default async function OneEquipmentPage({ params }: { readonly params: Promise<{ readonly equipmentId: string }> }) {
  const { equipmentId } = await params;
  const who = await pageWho("manage-equipment", paths.oneEquipment(equipmentId));
  const line = (await workshopEquipment(who, undefined)).find((one) => one.equipment.equipmentId === equipmentId);
  if (line === undefined) notFound();
  const { equipment, retired, outages, standingFirings } = line;
  const values = { equipmentId };
  return (
    <Page>
      <PageHead kicker={<Link href={paths.equipment}>Equipment</Link>} title={equipment.name} lead={firingsText(standingFirings)} />
      {retired && <Notice>Retired: it is offered no more. Everything booked on it in the past stays on record.</Notice>}
      <Panel title="Out of service" lead="Runs that stand in such a time stay, show as clashes, and their members are told.">
        {outages.length > 0 && <OutageList outages={outages} timeZone={who.timeZone} />}
        {!retired && <OutageForm equipmentId={equipmentId} />}
      </Panel>
      {equipment.kind === "kiln" && <KilnRecord screen={await kilnRecordScreen(who, equipmentId)} timeZone={who.timeZone} />}
      {equipment.kind === "kiln" && (
        <FeedPanel
          title="Its calendar elsewhere"
          lead="Bookings, outages and closures in a calendar program, on a screen by the kiln or on somebody's telephone."
          secrecy="Whoever has the address reads who fires what here and when, without signing in: give it to people of the workshop only."
          standing={await kilnFeed(who, equipmentId)}
          timeZone={who.timeZone}
          values={values}
          mayMake={!retired}
          make={makeKilnFeedAction}
          revoke={revokeKilnFeedAction}
        />
      )}
      <Panel title="Name and limits" lead="Runs already booked keep the plans they were made from.">
        <EquipmentForm kind={equipment.kind} equipmentId={equipmentId} values={valuesOf(equipment)} />
      </Panel>
      <Panel tone="quiet" title={retired ? "Bring it back" : "Retire it"}>
        {retired ? (
          <ConfirmWithReason trigger="Bring it back" title={`Bring ${equipment.name} back?`} confirmText="Bring it back" reason="offered" values={values} action={restoreAction} />
        ) : (
          <ConfirmWithReason trigger="Retire it" look="trouble" title={`Retire ${equipment.name}?`} confirmText="Retire it" values={values} action={retireAction}>
            <p>It is offered no more. Refused while booked runs still hang on it.</p>
          </ConfirmWithReason>
        )}
      </Panel>
    </Page>
  );
}

function firingsText(count: number): string {
  if (count === 0) return "No booked firing counts on it.";
  return count === 1 ? "One booked firing counts on it." : `${count} booked firings count on it.`;
}

/** The limits as the form's text, by the dotted path of each field. */
function valuesOf(equipment: Equipment): Readonly<Record<string, string>> {
  const limits: Readonly<Record<string, unknown>> = equipment.limits;
  const figure = (path: string): unknown => {
    const [, name = "", index] = path.split(".");
    const value = limits[name];
    return index !== undefined && Array.isArray(value) ? value[Number(index)] : value;
  };
  const induction = equipment.kind === "kiln" && equipment.needsInduction === true ? "on" : "";
  const rest = [["name", equipment.name], ["inspectionDue", equipment.inspectionDue ?? ""], ["needsInduction", induction]];
  return Object.fromEntries([...rest, ...EQUIPMENT_FIELDS[equipment.kind].map(({ path }) => [path, String(figure(path) ?? "")])]);
}
