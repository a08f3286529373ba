/** The list of all checks with how each stands on the present drawing, and the page of each. */
import { useEffect, useRef, useState } from "react";
import { CheckList } from "./CheckList.tsx";
import type * as CheckLibrary from "./check-library.ts";
import { CheckPage } from "./CheckPage.tsx";
import { DialogBox } from "./DialogBox.tsx";
import "./check-pages.css";

type Library = typeof CheckLibrary;

interface CheckPagesProps {
  /** The check whose page is opened; undefined: the list. */
  readonly check: string | undefined;
  readonly onClose: () => void;
}

export function CheckPages({ check: opened, onClose }: CheckPagesProps) {
  const [library, setLibrary] = useState<Library | "none">();
  const [shown, setShown] = useState(opened);
  const [search, setSearch] = useState("");
  const [left, setLeft] = useState<string>();
  const content = useRef<HTMLDivElement>(null);
  useEffect(() => {
    import("./check-library.ts").then(setLibrary, () => setLibrary("none"));
  }, []);
  const check =
    library === undefined || library === "none" || shown === undefined ? undefined : library.checkById(shown);
  const go = (to: string | undefined): void => {
    setLeft(to === undefined ? shown : undefined);
    setShown(to);
  };
  // A page begins at its top, where the keys scroll it; the list comes back to where it was left.
  useEffect(() => {
    const body = check === undefined ? null : content.current?.closest<HTMLElement>(".dialog-body");
    body?.scrollTo({ top: 0 });
    body?.focus();
  }, [check]);
  return (
    <DialogBox
      title={check?.title ?? "All checks"}
      wide
      onClose={onClose}
      foot={
        <>
          {check !== undefined && (
            <button type="button" onClick={() => go(undefined)}>
              All checks
            </button>
          )}
          <button type="button" className="dialog-main" data-first onClick={onClose}>
            Close
          </button>
        </>
      }
    >
      <div ref={content} className="check-pages">
        {library === undefined ? (
          <p role="status">The checks are being fetched.</p>
        ) : library === "none" ? (
          <p role="status">The checks could not be read. Their pages stand in the folder assets/check-pages, too.</p>
        ) : check === undefined ? (
          <CheckList groups={library.checkGroups} search={search} onSearch={setSearch} at={left} onOpen={go} />
        ) : (
          <CheckPage check={check} about={library.aboutOf(check)} picture={library.pictureAddress} />
        )}
      </div>
    </DialogBox>
  );
}
