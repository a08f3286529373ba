/**
 * Physical kinds as flavoured numbers: a plain number is accepted everywhere, but a Volt is not accepted
 * where an Ohm is wanted. All values inside the program are SI; texts become numbers in parse.ts only.
 */
type Kind<Unit extends string> = number & { readonly unit?: Unit };

export type Volt = Kind<"V">;
export type Ampere = Kind<"A">;
export type Ohm = Kind<"ohm">;
export type Siemens = Kind<"S">;
export type Watt = Kind<"W">;
export type Joule = Kind<"J">;
export type Farad = Kind<"F">;
export type Henry = Kind<"H">;
export type Metre = Kind<"m">;
export type SquareMetre = Kind<"m2">;
export type Second = Kind<"s">;
export type Coulomb = Kind<"C">;
/** Absolute temperature in kelvin. A difference is TemperatureDifference: the two never mix. */
export type Kelvin = Kind<"K">;
export type TemperatureDifference = Kind<"K difference">;
export type NewtonMetre = Kind<"N m">;
/** 1 = 100 %. */
export type Ratio = Kind<"1">;
/** Paper and panel coordinates in millimetres: the one exception to SI, as the file format stores them. */
export type Millimetre = Kind<"mm">;

/** What a typed text is expected to be. "size" is a conductor's cross-section (gauge or mm2). */
export type Dimension =
  | "voltage"
  | "current"
  | "resistance"
  | "power"
  | "energy"
  | "capacitance"
  | "inductance"
  | "length"
  | "size"
  | "time"
  | "charge"
  | "temperature"
  | "temperature-difference"
  | "torque"
  | "ratio"
  | "count";
