/** What could not be checked and what would have to be stated: never counted as passed. */
import { useMemo } from "react";
import { Button } from "../controls/Button.tsx";
import { useEditor, useSurroundings } from "../window/editor-context.ts";
import { fillIn } from "./fill-in.ts";
import { Places } from "./FindingNote.tsx";
import { missingGroups } from "./missing-groups.ts";
import { checkName, checkNames } from "./numbering.ts";

export function NotChecked() {
  const { store } = useSurroundings();
  const project = useEditor((editor) => editor.history.present);
  const view = useEditor((editor) => editor.checked);
  const checked = view?.document ?? null;
  const name = checkName(view);
  const { groups, unfounded } = useMemo(() => missingGroups(project, checked), [project, checked]);
  const count = checked?.counts.notChecked ?? 0;
  if (count === 0) return null;
  return (
    <section className="margin-part" aria-labelledby="not-checked-title">
      <h2 id="not-checked-title">
        Not checked <span className="margin-count">{count}</span>
      </h2>
      <p className="margin-about">Each of these needs a value that nobody has stated. None of them counts as passed.</p>
      {groups.map(({ title, items }) => (
        <div key={title} className="lacking" role="group" aria-label={title}>
          <h3>
            <span className="lacking-box">{title}</span>
          </h3>
          <ul>
            {items.map((item) => (
              <li key={item.key}>
                <Button look="link" aria-label={`State ${title} at ${item.thing}`} onClick={() => fillIn(store, item)}>
                  {item.thing}
                </Button>
                <span className="lacking-for"> for {checkNames(item.checks, name)}</span>
              </li>
            ))}
          </ul>
        </div>
      ))}
      {unfounded.length > 0 && (
        <ul className="lacking">
          {unfounded.map(({ check, why, where }, index) => (
            <li key={index}>
              <b>{name(check)}:</b> {why} <Places places={where} />
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
