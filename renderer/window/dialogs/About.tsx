/** What this is, which version, and what it cannot do where it runs now. */
import { useSurroundings } from "../editor-context.ts";
import { DialogBox } from "./DialogBox.tsx";

const VERSION: string = import.meta.env["LOOMWRIGHT_VERSION"];

const WHERE = { desktop: "in its own window", browser: "in a browser" } as const;

export function About({ onClose }: { readonly onClose: () => void }) {
  const { host } = useSurroundings();
  return (
    <DialogBox title={`Loomwright ${VERSION}`} onClose={onClose}>
      <p>
        Draws and checks the wiring of vehicles that are converted to battery-electric drive, 48 V to 400 V DC. It runs{" "}
        {WHERE[host.kind]}, on this machine alone; nothing is sent anywhere.
      </p>
      {host.abilities.cannot.length > 0 && (
        <>
          <h3>What it cannot do here</h3>
          <ul className="dialog-list">
            {host.abilities.cannot.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </>
      )}
    </DialogBox>
  );
}
