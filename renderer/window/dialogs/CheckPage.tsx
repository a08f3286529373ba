/** The page of a check: what it looks at, wrong and right in pictures, what it says, its limit and source. */
import type { Check } from "../../../core/checks/define.ts";
import { shown } from "../../../core/checks/text.ts";
import { sourceWords } from "../../../core/documents/source-words.ts";
import { SeverityBox } from "../../controls/SeverityBox.tsx";
import { TermGloss } from "../../controls/TermGloss.tsx";
import { useEditor } from "../editor-context.ts";
import { CheckPicture } from "./CheckPicture.tsx";
import type { Side } from "./check-library.ts";
import { standingKind, standingWords } from "./standing-words.ts";

interface CheckPageProps {
  readonly check: Check;
  readonly about: string;
  readonly picture: (check: string, side: Side) => string | undefined;
}

const SIDES: readonly (readonly [Side, string])[] = [
  ["wrong", "Wrong"],
  ["right", "Right"],
];

export function CheckPage({ check, about, picture }: CheckPageProps) {
  const standing = useEditor((editor) => editor.checked?.tallies[check.id]);
  const reasons = Object.values(check.reasons);
  return (
    <article className="check-page">
      <p className="check-page-head">
        {check.severities.map((severity) => (
          <SeverityBox key={severity} severity={severity} />
        ))}
        <span>
          On this drawing:{" "}
          <span className="check-standing" data-standing={standingKind(standing)}>
            {standingWords(standing)}
          </span>
        </span>
      </p>
      <p>
        <TermGloss text={about} />
      </p>
      <div className="check-pictures">
        {SIDES.map(([side, name]) => (
          <figure key={side} data-side={side}>
            <figcaption>{name}</figcaption>
            <CheckPicture address={picture(check.id, side)} />
          </figure>
        ))}
      </div>
      <h3>What it says</h3>
      {Object.entries(check.messages).map(([id, { title, why, mend }]) => (
        <div key={id} className="check-message">
          <p>
            <b>{shown(title)}</b>
          </p>
          <p>{shown(why)}</p>
          <p className="check-mend">
            <b>What to do: </b>
            {shown(mend)}
          </p>
        </div>
      ))}
      <h3>Limit and source</h3>
      <p>{sourceWords(check.source)}</p>
      <h3>When it is not checked</h3>
      {reasons.length === 0 ? (
        <p>It never lacks anything: {check.without.notChecked}.</p>
      ) : (
        <ul className="dialog-list">
          {reasons.map((reason) => (
            <li key={reason}>{shown(reason)}</li>
          ))}
        </ul>
      )}
    </article>
  );
}
