/** The trade's words, each in one sentence: what a newcomer sees on pointing at one. */
export const TERMS: Readonly<Record<string, string>> = {
  stud: "A threaded bolt on which a lug is fastened with a nut.",
  tab: "A flat blade that takes a push-on sleeve or a screw.",
  pin: "One contact within a plug.",
  splice: "A joint where two or more wires are crimped or soldered together for good.",
  busbar: "A bar of bare metal that joins many leads.",
  lug: "The eye crimped on a cable's end, with a hole that fits one size of stud.",
  boot: "A rubber cap over a lug, so that nobody can touch its metal.",
  net: "All terminals that conductors join to one point.",
  "traction circuit": "The circuit of the pack that drives the vehicle.",
  "auxiliary circuit": "The vehicle's own 12 V circuit: lamps, horn, coils.",
  chassis: "The vehicle's metal, which many 12 V circuits use as their return.",
  fuse: "A link that melts when too much current flows, before the wire behind it burns.",
  breaker: "A switch that opens by itself when too much current flows, and can be closed again.",
  insulation: "What keeps a conductor's voltage from whatever touches the wire.",
  relay: "A contact that a coil moves: a small current switches a larger one.",
  polarity: "Which way round plus and minus are.",
  pack: "All traction battery blocks together.",
  block: "One battery of the pack, in a case of its own.",
  string: "Blocks joined plus to minus, one after the other, so that their voltages add up.",
  jumper: "The short cable from one block to the next.",
  "main contactor": "The large relay that joins the pack to the controller.",
  contactor: "A relay built for large currents.",
  "pre-charge": "Filling the controller's capacitors slowly through a resistor before the main contactor closes.",
  coil: "The winding that pulls a relay's contact in.",
  suppression: "What takes up the voltage surge of a coil as it is switched off.",
  "short circuit": "A path of almost no resistance between two poles; nothing but the fuse ends it.",
  "interrupting rating": "The largest current that a fuse or breaker can break without bursting.",
  ampacity: "The current that a wire carries for good without its insulation growing too hot.",
  "voltage drop": "What a wire's own resistance takes off the voltage on its way.",
  "isolation resistance": "The resistance between the pack and the chassis: the higher, the less a touch can hurt.",
  clearance: "The shortest way through the air between two bare live parts.",
  creepage: "The shortest way along a surface between two bare live parts.",
  EMF: "The voltage that a battery makes inside, before its own resistance takes its share.",
  enclosure: "A box round live parts; one that opens only with a tool keeps fingers out.",
  converter: "Makes 12 V out of the pack's voltage, in place of an alternator.",
  disconnect: "A plug or switch that parts the pack by hand while someone works on it.",
  throttle: "The pedal's sensor, which tells the controller how much to give.",
  shunt: "A bar of known resistance, on which a meter reads the current.",
  welded: "Of a contact that has melted together and no longer opens.",
  boots: "Rubber caps over lugs, so that nobody can touch their metal.",
  lugs: "The eyes crimped on a cable's ends, with a hole that fits one size of stud.",
};

export interface Piece {
  readonly text: string;
  /** The gloss, where the piece is a term. */
  readonly gloss?: string;
}

const FIND = new RegExp(
  `\\b(${Object.keys(TERMS)
    .sort((a, b) => b.length - a.length)
    .join("|")})\\b`,
  "gi",
);
const SPELT = new Map(Object.entries(TERMS).map(([term, gloss]) => [term.toLowerCase(), gloss]));

/** A text cut at its terms. A term is glossed where it stands first; read again, it is known. */
export function piecesOf(text: string): readonly Piece[] {
  const told = new Set<string>();
  const pieces: Piece[] = [];
  let from = 0;
  for (const { 0: found, index } of text.matchAll(FIND)) {
    const gloss = SPELT.get(found.toLowerCase());
    if (gloss === undefined || told.has(gloss)) continue;
    told.add(gloss);
    if (index > from) pieces.push({ text: text.slice(from, index) });
    pieces.push({ text: found, gloss });
    from = index + found.length;
  }
  if (from < text.length) pieces.push({ text: text.slice(from) });
  return pieces;
}
