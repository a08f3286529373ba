/** Preferences; each takes effect at once and is kept. */
import { useId } from "react";
import type { Sheet } from "../../../core/project/document.ts";
import { PAPERS } from "../preferences.ts";
import type { Preferences } from "../preferences.ts";
import { usePreferences, useShellParts } from "../shell-context.ts";
import { DialogBox } from "./DialogBox.tsx";

interface Option<Value extends string> {
  readonly value: Value;
  readonly label: string;
}

const UNITS: readonly Option<Preferences["units"]>[] = [
  { value: "mm2", label: "mm2, AWG in brackets" },
  { value: "awg", label: "AWG, mm2 in brackets" },
];
const THEMES: readonly Option<Preferences["theme"]>[] = [
  { value: "system", label: "As the system has it" },
  { value: "light", label: "Light" },
  { value: "dark", label: "Dark" },
];
const PAPER: readonly Option<Sheet["paper"]>[] = PAPERS.map((paper) => ({ value: paper, label: paper }));

export function PreferencesBox({ onClose }: { readonly onClose: () => void }) {
  const { shell } = useShellParts();
  const preferences = usePreferences();
  const author = useId();
  const motion = useId();
  return (
    <DialogBox title="Preferences" onClose={onClose}>
      <div className="dialog-fields">
        <Choose
          label="Conductor sizes"
          options={UNITS}
          value={preferences.units}
          choose={(units) => shell.prefer({ units })}
        />
        <Choose
          label="Paper of a new sheet"
          options={PAPER}
          value={preferences.paper}
          choose={(paper) => shell.prefer({ paper })}
        />
        <label htmlFor={author}>Author of a new drawing</label>
        <input
          id={author}
          type="text"
          maxLength={80}
          value={preferences.author}
          onChange={({ target }) => shell.prefer({ author: target.value })}
        />
        <Choose label="Theme" options={THEMES} value={preferences.theme} choose={(theme) => shell.prefer({ theme })} />
        <label htmlFor={motion}>Movement that explains</label>
        <input
          id={motion}
          type="checkbox"
          checked={preferences.motion}
          onChange={({ target }) => shell.prefer({ motion: target.checked })}
        />
      </div>
    </DialogBox>
  );
}

interface ChooseProps<Value extends string> {
  readonly label: string;
  readonly options: readonly Option<Value>[];
  readonly value: Value;
  readonly choose: (value: Value) => void;
}

function Choose<Value extends string>({ label, options, value, choose }: ChooseProps<Value>) {
  const field = useId();
  return (
    <>
      <label htmlFor={field}>{label}</label>
      <select
        id={field}
        value={value}
        onChange={({ target }) => {
          const chosen = options.find((option) => option.value === target.value);
          if (chosen !== undefined) choose(chosen.value);
        }}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </>
  );
}
