import { classNames } from "@/app/_components/class-names";
import { Notice } from "@/app/_components/notice";
import { numberText } from "@/app/_components/number-text";
import type { ReadMesh } from "@/lib/contracts/mesh";
import { MeshDrawing } from "./mesh-drawing";
import { factsOf, thickPlace, UNIT_WORDS, unitDoubt, UP_WORDS } from "./mesh-words";
import { Sums } from "./sums";
import styles from "./mesh.module.css";

type MeshFactsProps = {
  readonly mesh: ReadMesh;
  /** How heat leaves it, as the form says. */
  readonly cooling: string;
  /** Another file is being read; this is the one before. */
  readonly stale: boolean;
};

/** A mesh that was read: its drawing, and beside it in words all that the drawing shows. */
export function MeshFacts({ mesh, cooling, stale }: MeshFactsProps) {
  const doubt = unitDoubt(mesh);
  return (
    <section className={classNames(styles["facts"], stale && styles["stale"])} aria-label="The mesh as it was read">
      {doubt !== undefined && <Notice tone="needsYou">{doubt}</Notice>}
      <MeshDrawing key={mesh.meshId} mesh={mesh} cooling={cooling} />
      <div className={styles["words"]}>
        <p>
          <strong>{mesh.fileName}</strong>, {numberText(mesh.triangles)} triangles, in {UNIT_WORDS[mesh.unit]}, {UP_WORDS[mesh.up].replace(/ \(.*/, "")}.
        </p>
        <Sums lines={factsOf(mesh.body, cooling)} />
        <p>
          Thickest {thickPlace(mesh.body, cooling)}
          {cooling === "one-face" ? (mesh.body.openFace === null ? "; no level face on top, so it cannot cool through one." : ", cooled through its open top alone.") : "."}
        </p>
      </div>
    </section>
  );
}
