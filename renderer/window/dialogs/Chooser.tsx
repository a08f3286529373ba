/** A list to open from: demo vehicles, or recent drawings. */
import { useSurroundings } from "../editor-context.ts";
import { useShell, useShellParts } from "../shell-context.ts";
import { DialogBox } from "./DialogBox.tsx";

interface ChooserProps {
  readonly what: "open-demo" | "open-recent";
  readonly onClose: () => void;
}

export function Chooser({ what, onClose }: ChooserProps) {
  return what === "open-demo" ? <Demos onClose={onClose} /> : <Recent onClose={onClose} />;
}

function Demos({ onClose }: { readonly onClose: () => void }) {
  const { files } = useShellParts();
  const demos = useShell((shell) => shell.demos);
  return (
    <DialogBox title="Open a demo vehicle" onClose={onClose}>
      <p>Vehicles of a village workshop: sound ones, and twins with mistakes in them.</p>
      <ul className="dialog-choices">
        {demos.map(({ id, title }) => (
          <li key={id}>
            <button
              type="button"
              onClick={() => {
                onClose();
                void files.openDemo(id);
              }}
            >
              {title}
            </button>
          </li>
        ))}
      </ul>
    </DialogBox>
  );
}

function Recent({ onClose }: { readonly onClose: () => void }) {
  const { host } = useSurroundings();
  const { files } = useShellParts();
  const recent = useShell((shell) => shell.recent);
  return (
    <DialogBox title="Open a recent drawing" onClose={onClose}>
      {recent.length === 0 && (
        <p>
          {host.abilities.recentFiles
            ? "No drawing has been opened or saved yet."
            : "This browser cannot come back to a file by itself. Open it from where it is."}
        </p>
      )}
      <ul className="dialog-choices">
        {recent.map((file) => (
          <li key={file.token}>
            <button
              type="button"
              onClick={() => {
                onClose();
                void files.openRecent(file);
              }}
            >
              {file.name}
              {file.place !== undefined && <span className="dialog-place"> {file.place}</span>}
            </button>
          </li>
        ))}
      </ul>
    </DialogBox>
  );
}
