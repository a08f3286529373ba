/** A picture of a check's page, drawn into the page itself so that it has the window's typeface. */
import { useEffect, useRef, useState } from "react";

export function CheckPicture({ address }: { readonly address: string | undefined }) {
  const paper = useRef<HTMLDivElement>(null);
  const [missing, setMissing] = useState(address === undefined);
  useEffect(() => {
    if (address === undefined) return;
    let gone = false;
    fetch(address)
      .then((answer) => answer.text())
      .then(
        (text) => {
          const picture = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
          if (!gone) paper.current?.replaceChildren(document.importNode(picture, true));
        },
        () => setMissing(true),
      );
    return () => {
      gone = true;
    };
  }, [address]);
  return missing ? <p>The picture could not be read.</p> : <div ref={paper} className="check-picture" />;
}
