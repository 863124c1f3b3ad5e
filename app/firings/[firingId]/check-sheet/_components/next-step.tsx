import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { Panel } from "@/app/_components/panel";
import type { CheckSheetScreen } from "@/lib/server/queries/check-sheet";
import { closeAction, openAction, startAction } from "../actions";

/** What this sheet is waiting for, and the one button that goes on from here. */
export function NextStep({ sheet }: { readonly sheet: CheckSheetScreen }) {
  const { firingId } = sheet;
  if (sheet.moment === "closed") {
    return (
      <Panel tone="quiet" title="This sheet is closed">
        <p>Nothing on it can change any more. It stays with the firing.</p>
      </Panel>
    );
  }
  if (sheet.status === "held") {
    return (
      <Panel tone="needsYou" title="This run is only held">
        <p>Confirm it first; a firing cannot be started before. What is ticked here stays.</p>
      </Panel>
    );
  }
  if (sheet.status === "planned") {
    return (
      <Step title={count(sheet.startBlockedBy.length, "before the firing may start")} waiting={sheet.startBlockedBy} allowed={sheet.mayStart}>
        <ConfirmWithReason
          trigger="Start the firing"
          look="main"
          title={`Start the firing of ${sheet.title}?`}
          confirmText="Start it"
          cancelText="Not yet"
          reason="none"
          values={{ firingId }}
          action={startAction}
        >
          <p>The door is closed, the program is set and read back. From now on this run cannot be moved.</p>
        </ConfirmWithReason>
      </Step>
    );
  }
  if (sheet.status === "started") {
    return (
      <Step title={count(sheet.openBlockedBy.length, "before the kiln may be opened")} waiting={sheet.openBlockedBy} allowed={sheet.mayStart}>
        <ConfirmWithReason
          trigger="Mark as opened and unloaded"
          look="main"
          title="Opened and unloaded?"
          confirmText="It is out of the kiln"
          cancelText="Not yet"
          reason="none"
          values={{ firingId }}
          action={openAction}
        >
          <p>What is left of the booking after the kiln’s turnaround becomes free for others.</p>
        </ConfirmWithReason>
      </Step>
    );
  }
  return (
    <Step title="The firing has been opened" waiting={[]} allowed={sheet.mayClose}>
      <ConfirmWithReason
        trigger="Close the sheet"
        title="Close this check sheet?"
        confirmText="Close it"
        cancelText="Leave it open"
        reason="none"
        values={{ firingId }}
        action={closeAction}
      >
        <p>A closed sheet cannot change, for anybody.</p>
      </ConfirmWithReason>
    </Step>
  );
}

type StepProps = {
  readonly title: string;
  readonly waiting: readonly string[];
  readonly allowed: boolean;
  readonly children: React.ReactNode;
};

function Step({ title, waiting, allowed, children }: StepProps) {
  return (
    <Panel tone={waiting.length > 0 ? "needsYou" : "plain"} title={title}>
      {waiting.length > 0 && (
        <ul>
          {waiting.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
      {allowed ? <div className="no-print">{children}</div> : <p>Its owner, an assistant or the manager goes on from here.</p>}
    </Panel>
  );
}

function count(open: number, until: string): string {
  if (open === 0) return "Everything that must be true is ticked";
  return open === 1 ? `One item is open ${until}` : `${open} items are open ${until}`;
}
