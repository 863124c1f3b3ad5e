import type { Metadata } from "next";
import Link from "next/link";
import { Temporal } from "temporal-polyfill";
import { Badge } from "@/app/_components/badge";
import { DataTable } from "@/app/_components/data-table";
import { Empty } from "@/app/_components/empty";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import type { Equipment } from "@/lib/domain/booking/equipment";
import { showDayWithYear } from "@/lib/domain/time/show-time";
import { pageWho } from "@/lib/server/page-who";
import { workshopEquipment } from "@/lib/server/queries/workshop-equipment";
import { EquipmentForm } from "./equipment-form";
import { OutageList } from "./outage-list";

export const metadata: Metadata = { title: "Equipment" };

const TITLES = { kiln: "Kilns", steamer: "Steamers", trolley: "Lifting trolleys" } as const;
const KINDS = ["kiln", "steamer", "trolley"] as const;
/** What a new kiln starts from; everything else is read off the plate. */
const USUAL = { "limits.wallClearanceMm": "40", "limits.headroomMm": "50", "limits.turnaroundHours": "2" };

export default async function EquipmentPage() {
  const who = await pageWho("manage-equipment", paths.equipment);
  const lines = await workshopEquipment(who, undefined);
  return (
    <Page>
      <PageHead title="Equipment" lead="What can be booked, with its limits and the times it is out of service." />
      {KINDS.map((kind) => (
        <Panel key={kind} title={TITLES[kind]}>
          <DataTable
            caption={TITLES[kind]}
            rows={lines.filter((line) => line.equipment.kind === kind)}
            rowKey={(line) => line.equipment.equipmentId}
            empty={<Empty title={`No ${TITLES[kind].toLowerCase()} yet`}>Add the first one below.</Empty>}
            columns={[
              {
                key: "name",
                title: "Name",
                cell: (line) => (
                  <>
                    <Link href={paths.oneEquipment(line.equipment.equipmentId)}>{line.equipment.name}</Link> {line.retired && <Badge tone="quiet">retired</Badge>}
                  </>
                ),
              },
              { key: "limits", title: "Limits", cell: (line) => limitsText(line.equipment) },
              { key: "inspection", title: "Inspection due", cell: (line) => (line.equipment.inspectionDue ? showDayWithYear(Temporal.PlainDate.from(line.equipment.inspectionDue)) : "none") },
              { key: "firings", title: "Booked firings", numeric: true, cell: (line) => line.standingFirings },
              { key: "outages", title: "Out of service", cell: (line) => (line.outages.length === 0 ? "no" : <OutageList outages={line.outages} timeZone={who.timeZone} />) },
            ]}
          />
        </Panel>
      ))}
      <Panel title="Add equipment" id="add">
        <EquipmentForm kind="kiln" values={USUAL} />
      </Panel>
    </Page>
  );
}

function limitsText(equipment: Equipment): string {
  switch (equipment.kind) {
    case "kiln":
      return `${equipment.limits.insideMm.join(" × ")} mm inside, shelf ${equipment.limits.shelfLoadKg} kg, ${equipment.limits.powerKw} kW, up to ${equipment.limits.maxC} °C${equipment.needsInduction === true ? "; after an induction" : ""}`;
    case "steamer":
      return `${equipment.limits.insideMm.join(" × ")} mm inside, moulds up to ${equipment.limits.maxMouldKg} kg, ${equipment.limits.powerKw} kW`;
    case "trolley":
      return `${equipment.limits.ratedKg} kg rated, ${equipment.limits.ownKg} kg itself`;
  }
}
