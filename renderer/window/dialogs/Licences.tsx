/** The licences of everything of others that is shipped. Fetched when asked for: it is a long text. */
import { useEffect, useState } from "react";
import notices from "../../../assets/licences/notices.txt?url";
import { DialogBox } from "./DialogBox.tsx";

export function Licences({ onClose }: { readonly onClose: () => void }) {
  const [text, setText] = useState("The licences are being fetched.");
  useEffect(() => {
    let gone = false;
    const show = (got: string): void => {
      if (!gone) setText(got);
    };
    fetch(notices)
      .then((answer) => answer.text())
      .then(show, () => show("The licences could not be read. They stand in the folder assets/licences, too."));
    return () => {
      gone = true;
    };
  }, []);
  return (
    <DialogBox title="Licences" wide onClose={onClose}>
      <p>Loomwright is built on the work of others. What they ask to be said:</p>
      <pre className="dialog-text">{text}</pre>
    </DialogBox>
  );
}
