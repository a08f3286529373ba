/** A picture of a check's page, drawn into the page itself so that it has the window's typeface. */
import { useEffect, useRef, useState } from "react";

/** From here on, mm, a picture has the whole breadth of the page: half of it would make its texts too small. */
const WIDE = 105;

export function CheckPicture({ address }: { readonly address: string | undefined }) {
  const paper = useRef<HTMLDivElement>(null);
  const [wide, setWide] = useState(false);
  const [missing, setMissing] = useState(address === undefined);
  useEffect(() => {
    if (address === undefined) return;
    let gone = false;
    fetch(address)
      .then((answer) => answer.text())
      .then(
        (text) => {
          const picture = document.importNode(
            new DOMParser().parseFromString(text, "image/svg+xml").documentElement,
            true,
          );
          if (gone || !(picture instanceof SVGSVGElement)) return;
          setWide(picture.viewBox.baseVal.width > WIDE);
          paper.current?.replaceChildren(picture);
        },
        () => setMissing(true),
      );
    return () => {
      gone = true;
    };
  }, [address]);
  return missing ? (
    <p>The picture could not be read.</p>
  ) : (
    <div ref={paper} className="check-picture" data-wide={wide} />
  );
}
