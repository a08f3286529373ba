/** What is selected, in its own words, above its fields. */
import { KINDS } from "../../../core/parts/catalogue.ts";
import type { Part, Wire } from "../../../core/project/document.ts";
import { knownPart, partById, wiresAt } from "../../../core/project/lookup.ts";
import { Button } from "../../controls/Button.tsx";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { FactsSection } from "./FactsSection.tsx";

export function PartHead({ parts }: { readonly parts: readonly Part[] }) {
  const [part] = parts;
  if (part === undefined) return null;
  const kind = KINDS.get(part.kind);
  if (parts.length > 1)
    return (
      <>
        <h2 className="facts-title">{parts.length} parts</h2>
        <p className="facts-about">
          {parts.map(({ designation }) => designation).join(", ")}: what they have in common.
        </p>
      </>
    );
  return (
    <>
      <h2 className="facts-title">
        {part.designation} <span className="facts-kind">{kind?.title ?? part.kind}</span>
      </h2>
      {kind !== undefined && <p className="facts-about">{kind.explanation}</p>}
      <Terminals part={part} />
    </>
  );
}

/** Each terminal with the wires on it. */
function Terminals({ part }: { readonly part: Part }) {
  const { store } = useSurroundings();
  const project = useEditor((editor) => editor.history.present);
  const terminals = knownPart(part, KINDS)?.terminals ?? [];
  return (
    <FactsSection title={`Terminals (${String(terminals.length)})`} folded>
      <ul className="facts-terminals">
        {terminals.map(({ id, title, form }) => {
          const wires = wiresAt(project, [part.id, id]);
          return (
            <li key={id}>
              <span className="facts-terminal">{id}</span>
              <span>
                {title === id ? form : `${title}, ${form}`}:{" "}
                {wires.length === 0
                  ? "no wire"
                  : wires.map((wire) => (
                      <Button key={wire.id} look="link" onClick={() => store.select({ wires: [wire.id] })}>
                        {wire.number}
                      </Button>
                    ))}
              </span>
            </li>
          );
        })}
      </ul>
    </FactsSection>
  );
}

export function WireHead({ wires }: { readonly wires: readonly Wire[] }) {
  const { store } = useSurroundings();
  const project = useEditor((editor) => editor.history.present);
  const [wire] = wires;
  if (wire === undefined) return null;
  if (wires.length > 1)
    return (
      <>
        <h2 className="facts-title">{wires.length} wires</h2>
        <p className="facts-about">{wires.map(({ number }) => number).join(", ")}: what is typed here goes to all.</p>
      </>
    );
  return (
    <>
      <h2 className="facts-title">
        {wire.number} <span className="facts-kind">Wire</span>
      </h2>
      <p className="facts-about">
        From{" "}
        {wire.ends.map((end, index) => (
          <span key={index}>
            {index === 1 && " to "}
            {end === null ? (
              "a loose end"
            ) : (
              <Button look="link" onClick={() => store.select({ parts: [end[0]] })}>
                {partById(project, end[0])?.designation ?? end[0]}:{end[1]}
              </Button>
            )}
          </span>
        ))}
        .
      </p>
    </>
  );
}
