/** Why a file cannot be opened: each place with its remedy. */
import { DialogBox } from "./DialogBox.tsx";

interface UnreadableProps {
  readonly name: string;
  readonly problems: readonly string[];
  readonly onClose: () => void;
}

export function Unreadable({ name, problems, onClose }: UnreadableProps) {
  return (
    <DialogBox title={`${name} cannot be opened`} onClose={onClose}>
      <ul className="dialog-list">
        {problems.map((problem) => (
          <li key={problem}>{problem}</li>
        ))}
      </ul>
      <p>The drawing in the window is as it was.</p>
    </DialogBox>
  );
}
