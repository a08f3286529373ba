/**
 * Parameters as typed, read: one place where a part's texts become SI numbers, choices and texts. What cannot be read
 * counts as unstated here; the file and the tables refuse it at the door with `normaliseParameter`.
 */
import type { Dimension } from "../quantity/kinds.ts";
import { parseQuantity } from "../quantity/parse.ts";
import { parseCurve } from "./curve.ts";
import type { ParameterSpec, PartKind, Statedness, Values } from "./define.ts";

type Normalised = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly why: string };
type NumberReading =
  | { readonly ok: true; readonly value: number; readonly text: string }
  | { readonly ok: false; readonly why: string };

const LONGEST_TEXT = 10_000;

/** The one dimension in which a text makes sense; a bare number would make sense in several. */
function readEither(dimensions: readonly Dimension[], text: string): NumberReading {
  const readings = dimensions.map((dimension) => parseQuantity(text, dimension));
  const good = readings.filter((reading) => reading.ok);
  const [first] = good;
  if (good.length === 1 && first !== undefined) return first;
  if (good.length > 1) return { ok: false, why: `write the unit: this may be a ${dimensions.join(" or a ")}` };
  const refused = readings.find((reading) => !reading.ok);
  return refused !== undefined && !refused.ok ? refused : { ok: false, why: "no number is written here" };
}

/** Reads a number of a parameter within its bounds; `undefined` for parameters that hold none. */
function readNumber(spec: ParameterSpec, text: string): NumberReading | undefined {
  if ("either" in spec) return readEither(spec.either, text);
  if (!("dimension" in spec)) return undefined;
  const reading = parseQuantity(text, spec.dimension);
  if (!reading.ok) return reading;
  if (spec.whole === true && !Number.isInteger(reading.value)) return { ok: false, why: "write a whole number" };
  const written = (bound: number): string => (spec.dimension === "ratio" ? `${String(bound * 100)} %` : String(bound));
  if (spec.least !== undefined && reading.value < spec.least) {
    return { ok: false, why: `the least possible is ${written(spec.least)}` };
  }
  if (spec.most !== undefined && reading.value > spec.most) {
    return { ok: false, why: `the most possible is ${written(spec.most)}` };
  }
  return reading;
}

/**
 * The tidied text of a typed parameter, as the file stores it ("4k7" becomes "4.7 kohm", a gauge stays a gauge), or
 * why it cannot be taken: a sentence fragment for people, without capital or full stop.
 */
export function normaliseParameter(spec: ParameterSpec, text: string): Normalised {
  const number = readNumber(spec, text);
  if (number !== undefined) return number.ok ? { ok: true, text: number.text } : number;
  const plain = text.trim();
  if ("choices" in spec) {
    const word = spec.choices.find((choice) => choice.toLowerCase() === plain.toLowerCase());
    return word === undefined
      ? { ok: false, why: `choose one of ${spec.choices.join(", ")}` }
      : { ok: true, text: word };
  }
  if ("curve" in spec) {
    const curve = parseCurve(plain);
    return curve.ok ? { ok: true, text: curve.text } : curve;
  }
  if (plain === "") return { ok: false, why: "nothing is written here" };
  if (plain.length > LONGEST_TEXT) return { ok: false, why: `more than ${String(LONGEST_TEXT)} characters` };
  const why = "refuse" in spec ? spec.refuse?.(plain) : undefined;
  return why === undefined ? { ok: true, text: plain } : { ok: false, why };
}

/**
 * A part's parameters, read. Absent = the kind's default, `null` = known to be unknown: then the default does not
 * stand in either, since someone looked and does not know. Parameters of no such name read as unstated.
 */
export function readValues(
  kind: Pick<PartKind, "parameters">,
  parameters: Readonly<Record<string, string | null>>,
): Values {
  const specOf = (name: string): ParameterSpec | undefined =>
    Object.hasOwn(kind.parameters, name) ? kind.parameters[name] : undefined;
  const written = (name: string): string | null | undefined =>
    Object.hasOwn(parameters, name) ? parameters[name] : undefined;
  const read = new Map<string, { readonly number: number | undefined; readonly text: string | undefined }>();

  const look = (name: string): { readonly number: number | undefined; readonly text: string | undefined } => {
    const earlier = read.get(name);
    if (earlier !== undefined) return earlier;
    const spec = specOf(name);
    const given = written(name);
    const typed = given === undefined ? spec?.default : given;
    let number: number | undefined;
    let text: string | undefined;
    if (spec !== undefined && typed !== undefined && typed !== null) {
      const reading = readNumber(spec, typed);
      if (reading?.ok === true) number = reading.value;
      const normalised = normaliseParameter(spec, typed);
      if (normalised.ok) text = normalised.text;
    }
    const result = { number, text };
    read.set(name, result);
    return result;
  };

  return {
    number: (name) => look(name).number,
    choice: (name) => {
      const spec = specOf(name);
      return spec !== undefined && "choices" in spec ? look(name).text : undefined;
    },
    text: (name) => look(name).text,
    stated: (name): Statedness => {
      const given = written(name);
      if (given === null) return "unknown";
      if (given !== undefined && look(name).text !== undefined) return "confirmed";
      return specOf(name)?.default === undefined ? "unstated" : "default";
    },
  };
}
