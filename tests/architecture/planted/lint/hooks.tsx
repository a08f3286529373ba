import { useEffect, useState } from "react";

export function Sometimes({ shown, count }: { readonly shown: boolean; readonly count: number }) {
  if (!shown) return null;
  const [seen, setSeen] = useState(0);
  useEffect(() => setSeen(count), []);
  return <p>{seen}</p>;
}
