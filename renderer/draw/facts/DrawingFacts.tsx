/** Nothing is selected: the sheet and its paper, the title block, the zones and enclosures of the vehicle. */
import { useState } from "react";
import { addEnclosure } from "../../../core/project/commands/add-enclosure.ts";
import { addZone } from "../../../core/project/commands/add-zone.ts";
import { removeEnclosure } from "../../../core/project/commands/remove-enclosure.ts";
import { removeZone } from "../../../core/project/commands/remove-zone.ts";
import { sheetById } from "../../../core/project/lookup.ts";
import { Button } from "../../controls/Button.tsx";
import { Field } from "../../controls/Field.tsx";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { fieldOf, fieldWish } from "./ask-for-field.ts";
import type { Asked } from "./asked.ts";
import { enclosureFields, sheetFields, titleFields, vehicleFields, zoneFields } from "./drawing-fields.ts";
import { FactsSection } from "./FactsSection.tsx";
import { zoneName } from "./field-words.ts";

const plural = (count: number, one: string, many: string): string => `${String(count)} ${count === 1 ? one : many}`;

export function DrawingFacts({ asked }: { readonly asked: Asked }) {
  const { store } = useSurroundings();
  const project = useEditor((editor) => editor.history.present);
  const shown = useEditor((editor) => editor.sheet);
  const sheet = sheetById(project, shown);
  const here = project.parts.filter(({ views }) => views.some((view) => view.sheet === shown)).length;
  const unplaced = project.parts.filter(({ views }) => views.length === 0).length;
  return (
    <>
      <h2 className="facts-title">Sheet {sheet?.name ?? ""}</h2>
      <p className="facts-about">
        {plural(here, "part", "parts")} on this sheet; {plural(project.parts.length, "part", "parts")} and{" "}
        {plural(project.wires.length, "wire", "wires")} in the drawing
        {unplaced === 0 ? "" : `, ${plural(unplaced, "part", "parts")} on no sheet`}.
      </p>
      {sheet !== undefined && <FactsSection title="Paper" fields={sheetFields(store, sheet)} />}
      <FactsSection title="Title block" fields={titleFields(store, project.title, asked)} />
      <FactsSection title="Vehicle" fields={vehicleFields(store, project)} />
      <FactsSection title={`Zones (${String(project.zones.length)})`} folded>
        <p className="facts-about">A zone is a place in the vehicle with its own heat and wet.</p>
        {project.zones.map((zone) => (
          <div key={zone.id} className="facts-entry" role="group" aria-label={`Zone ${zoneName(zone)}`}>
            {zoneFields(store, zone, asked).map((field) => (
              <Field key={field.name} field={field} />
            ))}
            <Button onClick={() => store.perform(removeZone, { zone: zone.id })}>Remove {zoneName(zone)}</Button>
          </div>
        ))}
        <Button onClick={() => store.perform(addZone, { kind: "other" })}>Add a zone</Button>
      </FactsSection>
      <FactsSection title={`Enclosures (${String(project.enclosures.length)})`} folded>
        <p className="facts-about">A box round live parts. Which parts are in it is said at each part.</p>
        {project.enclosures.map((enclosure) => (
          <div key={enclosure.id} className="facts-entry" role="group" aria-label={`Enclosure ${enclosure.name}`}>
            {enclosureFields(store, project, enclosure, asked).map((field) => (
              <Field key={field.name} field={field} />
            ))}
            <Button onClick={() => store.perform(removeEnclosure, { enclosure: enclosure.id })}>
              Remove {enclosure.name}
            </Button>
          </div>
        ))}
        <NewEnclosure />
      </FactsSection>
    </>
  );
}

/** A box is known by its name, so the name comes first. */
function NewEnclosure() {
  const { store } = useSurroundings();
  const [name, setName] = useState("");
  const add = (): void => {
    if (name.trim() === "") return;
    const id = store.perform(addEnclosure, { name: name.trim() });
    setName("");
    if (id !== undefined) fieldWish(store).setState({ field: fieldOf(id, "toolClosed") });
  };
  return (
    <form
      className="facts-new"
      onSubmit={(event) => {
        event.preventDefault();
        add();
      }}
    >
      <input
        type="text"
        aria-label="Name of a new enclosure"
        placeholder="Name, such as controller box"
        value={name}
        onChange={({ target }) => setName(target.value)}
      />
      <button type="submit" className="button button-quiet" disabled={name.trim() === ""}>
        Add an enclosure
      </button>
    </form>
  );
}
