/** What all control contacts share: ratings, and how a rating counts for making and breaking. */
import type { ContactSpec, Values } from "./define.ts";

/**
 * A control contact's rating as printed (volts and amperes) is a switching rating: it counts for carrying, making and
 * breaking alike.
 */
export const controlContact = (values: Values, element: string, a: string, b: string): ContactSpec => ({
  element,
  a,
  b,
  voltage: values.number("contactVoltage"),
  continuous: values.number("contactCurrent"),
  make: values.number("contactCurrent"),
  breaking: values.number("contactCurrent"),
  voltageParameter: "contactVoltage",
  continuousParameter: "contactCurrent",
  polarised: false,
});

export const SWITCHING_RATING_NOTE =
  "The printed contact current is taken as what the contact may carry, make and break.";
