/** Networks that change in time, to be held against the general simulator. Figures are those of values in use on vehicles. */
import { NetworkMaker, type ElectricalNetwork } from "../../harness/electrical-networks.ts";

/** A voltage (node a minus node b) or the current through a branch (a to b; of a source out of its plus). */
export type Watch =
  | { readonly a: number; readonly b: number; readonly levels: readonly number[] }
  | { readonly branch: number; readonly levels: readonly number[] };

export interface TimedNetwork extends ElectricalNetwork {
  /** Seconds. */
  readonly duration: number;
  /** Where each capacitor starts, volts by branch; 0 where it is not named. */
  readonly volts: Readonly<Record<number, number>>;
  /** Where each coil starts, amperes by branch; 0 where it is not named. */
  readonly amps: Readonly<Record<number, number>>;
  /** Contacts that move, in order of time; the first positions are those of the elements. */
  readonly moves: readonly { readonly time: number; readonly branch: number; readonly closed: boolean }[];
  readonly watch: readonly Watch[];
  /** Diodes as a semiconductor's exponential curve in the simulator; here they stay straight pieces. */
  readonly exponential?: true;
}

type Plan = Pick<TimedNetwork, "duration" | "watch"> & Partial<Pick<TimedNetwork, "volts" | "amps" | "moves">>;

function timed(
  title: string,
  build: (make: NetworkMaker, node: () => number) => Plan,
  exponential = false,
): TimedNetwork {
  const make = new NetworkMaker();
  const plan = build(make, () => make.node());
  const network = { volts: {}, amps: {}, moves: [], ...plan, ...make.done(title) };
  return exponential ? { ...network, exponential: true } : network;
}

/** A pack behind its resistance, a pre-charge resistor beside the open main contact, the bus with its capacitors. */
function precharge(
  title: string,
  {
    emf,
    ohms,
    farads,
    load,
    bleeder,
    closeAt,
    duration,
    start = 0,
  }: {
    emf: number;
    ohms: number;
    farads: number;
    load?: number;
    bleeder?: number;
    closeAt?: number;
    duration: number;
    start?: number;
  },
): TimedNetwork {
  return timed(title, (make, node) => {
    const [plus, bus] = [node(), node()];
    const pack = make.source(plus, 0, emf, 0.04);
    make.resistance(plus, bus, ohms, "resistor");
    const main = make.contact(plus, bus, false, 0.003);
    const bank = make.capacitor(bus, 0, farads);
    if (load !== undefined) make.draw(bus, 0, load, 0.5);
    if (bleeder !== undefined) make.resistance(bus, 0, bleeder, "load");
    return {
      duration,
      volts: { [bank]: start },
      moves: closeAt === undefined ? [] : [{ time: closeAt, branch: main, closed: true }],
      watch: [
        { a: bus, b: 0, levels: [60, 0.9 * emf, 0.95 * emf] },
        { branch: pack, levels: [] },
      ],
    };
  });
}

/** A 12 V coil that is switched off at 50 ms, with `quench` across it. */
function turnOff(
  title: string,
  quench: (make: NetworkMaker, plus: number, minus: number) => void,
  exponential = false,
): TimedNetwork {
  return timed(
    title,
    (make, node) => {
      const [plus, feed, minus] = [node(), node(), node()];
      make.source(plus, 0, 12.7, 0.02);
      make.resistance(plus, feed, 0.05);
      const coil = make.coil(feed, minus, 36, 0.5);
      const low = make.contact(minus, 0, true, 0.05);
      make.resistance(minus, 0, 1e4, "leak");
      quench(make, feed, minus);
      const amps = 12.7 / 36.12;
      return {
        duration: 0.15,
        amps: { [coil]: amps },
        moves: [{ time: 0.05, branch: low, closed: false }],
        watch: [
          { branch: coil, levels: [0.5 * amps, 0.1 * amps] },
          { a: minus, b: 0, levels: [20] },
        ],
      };
    },
    exponential,
  );
}

function equalising(
  title: string,
  {
    first,
    second,
    ohms,
    volts,
    duration,
  }: {
    first: number;
    second: number;
    ohms: number;
    volts: readonly [number, number];
    duration: number;
  },
): TimedNetwork {
  return timed(title, (make, node) => {
    const [one, other] = [node(), node()];
    const a = make.capacitor(one, 0, first);
    const b = make.capacitor(other, 0, second);
    make.resistance(one, 0, 1e5, "leak");
    const contact = make.contact(one, other, false, ohms);
    return {
      duration,
      volts: { [a]: volts[0], [b]: volts[1] },
      moves: [{ time: duration / 10, branch: contact, closed: true }],
      watch: [
        { a: one, b: 0, levels: [(volts[0] + volts[1]) / 2 + 5] },
        { a: other, b: 0, levels: [] },
      ],
    };
  });
}

/** The networks; each stands for a moment in the life of a vehicle. */
export function timedNetworks(): readonly TimedNetwork[] {
  return [
    precharge("pre-charge of 10 mF at 144 V through 100 ohm", { emf: 144, ohms: 100, farads: 0.01, duration: 5 }),
    precharge("pre-charge with a bleeder of 5 kohm", {
      emf: 96,
      ohms: 470,
      farads: 0.004,
      bleeder: 5000,
      duration: 10,
    }),
    precharge("pre-charge with a steady 20 mA on the bus", {
      emf: 144,
      ohms: 750,
      farads: 0.01,
      load: 0.02,
      duration: 30,
    }),
    precharge("pre-charge, then the main contact closes at three time constants", {
      emf: 96,
      ohms: 220,
      farads: 0.005,
      closeAt: 3.3,
      duration: 4,
    }),
    precharge("main contact closes onto an empty bus", {
      emf: 72,
      ohms: 1e6,
      farads: 0.006,
      closeAt: 0.001,
      duration: 0.004,
    }),
    precharge("main contact closes onto a charged bus", {
      emf: 72,
      ohms: 1e6,
      farads: 0.006,
      closeAt: 0.001,
      duration: 0.004,
      start: 71.5,
    }),
    precharge("main contact closes while the bus stands higher than the pack", {
      emf: 84,
      ohms: 1e6,
      farads: 0.003,
      closeAt: 0.001,
      duration: 0.003,
      start: 98,
    }),
    precharge("bus of 400 V and 3 mF through 50 ohm", { emf: 400, ohms: 50, farads: 0.003, duration: 1 }),
    timed("bus of 144 V and 10 mF empties through 1 kohm", (make, node) => {
      const bus = node();
      const bank = make.capacitor(bus, 0, 0.01);
      make.resistance(bus, 0, 1000, "resistor");
      return { duration: 20, volts: { [bank]: 144 }, watch: [{ a: bus, b: 0, levels: [60, 30] }] };
    }),
    equalising("two capacitors equalise through 10 mohm", {
      first: 0.004,
      second: 0.002,
      ohms: 0.01,
      volts: [100, 20],
      duration: 0.0005,
    }),
    equalising("a large and a small capacitor equalise through 5 ohm", {
      first: 0.02,
      second: 0.0005,
      ohms: 5,
      volts: [60, 0],
      duration: 0.03,
    }),
    timed("coil switched on through a long lead", (make, node) => {
      const [plus, feed, minus] = [node(), node(), node()];
      make.source(plus, 0, 12.7, 0.02);
      const key = make.contact(plus, feed, false, 0.05);
      make.resistance(feed, 0, 1e5, "leak");
      make.resistance(minus, 0, 0.8);
      const coil = make.coil(feed, minus, 24, 0.3);
      return {
        duration: 0.08,
        moves: [{ time: 0.01, branch: key, closed: true }],
        watch: [{ branch: coil, levels: [0.2, 0.36, 0.45] }],
      };
    }),
    turnOff("coil switched off, a resistor across it", (make, plus, minus) => {
      make.resistance(minus, plus, 180, "resistor");
    }),
    turnOff("coil switched off, a diode across it", (make, plus, minus) => {
      make.diode(minus, plus, 0.7, 0.05);
    }),
    turnOff("coil switched off, diode and zener across it", (make, plus, minus) => {
      make.diode(minus, plus, 12.7, 0.5);
    }),
    turnOff("coil switched off, a double zener across it", (make, plus, minus) => {
      make.clamp(minus, plus, 24, 0.5, false);
    }),
    turnOff(
      "coil switched off, an exponential diode across it",
      (make, plus, minus) => {
        make.diode(minus, plus, 0.7, 0.05);
      },
      true,
    ),
    timed("motor loop opens beside a capacitor and a resistor", (make, node) => {
      const [plus, mid, end, snub] = [node(), node(), node(), node()];
      make.source(plus, 0, 72, 0.02);
      const loop = make.coil(plus, mid, 0.08, 0.0004);
      const contact = make.contact(mid, end, true, 0.001);
      make.resistance(end, 0, 0.3, "load");
      make.resistance(mid, snub, 2, "resistor");
      const bank = make.capacitor(snub, 0, 0.00047);
      const amps = 72 / 0.401;
      return {
        duration: 0.01,
        amps: { [loop]: amps },
        volts: { [bank]: amps * 0.301 },
        moves: [{ time: 0.001, branch: contact, closed: false }],
        watch: [
          { branch: loop, levels: [90] },
          { a: mid, b: 0, levels: [200] },
        ],
      };
    }),
    timed("coil and capacitor ring", (make, node) => {
      const [plus, mid, out] = [node(), node(), node()];
      make.source(plus, 0, 48, 0.05);
      const key = make.contact(plus, mid, false, 0.01);
      make.resistance(mid, 0, 1e5, "leak");
      const coil = make.coil(mid, out, 0.4, 0.002);
      make.capacitor(out, 0, 0.0005);
      return {
        duration: 0.03,
        moves: [{ time: 0.001, branch: key, closed: true }],
        watch: [
          { a: out, b: 0, levels: [40, 60] },
          { branch: coil, levels: [] },
        ],
      };
    }),
    timed("converter starts on a bus that charges", (make, node) => {
      const [plus, bus, input] = [node(), node(), node()];
      make.source(plus, 0, 96, 0.05);
      make.resistance(plus, bus, 2, "resistor");
      make.capacitor(bus, 0, 0.002);
      const key = make.contact(bus, input, false, 0.05);
      make.resistance(input, 0, 1e5, "leak");
      make.power(input, 0, 300, 20);
      return {
        duration: 0.1,
        moves: [{ time: 0.05, branch: key, closed: true }],
        watch: [{ a: bus, b: 0, levels: [60, 90] }],
      };
    }),
    timed("a limited source charges a capacitor and meets its limit", (make, node) => {
      const out = node();
      make.limited(out, 0, 58.4, 0.05, 20, true);
      make.capacitor(out, 0, 0.01);
      make.resistance(out, 0, 20, "load");
      return { duration: 0.08, watch: [{ a: out, b: 0, levels: [30, 55] }] };
    }),
    timed("full load comes and goes beside the bus capacitors", (make, node) => {
      const [plus, bus, drive] = [node(), node(), node()];
      const pack = make.source(plus, 0, 101.6, 0.048);
      make.resistance(plus, bus, 0.004);
      const bank = make.capacitor(bus, 0, 0.0047);
      const stage = make.contact(bus, drive, false, 0.0005);
      make.draw(drive, 0, 250, 0.004);
      make.resistance(drive, 0, 1e4, "leak");
      return {
        duration: 0.006,
        volts: { [bank]: 101.6 },
        moves: [
          { time: 0.001, branch: stage, closed: true },
          { time: 0.004, branch: stage, closed: false },
        ],
        watch: [
          { a: bus, b: 0, levels: [95] },
          { branch: pack, levels: [125] },
        ],
      };
    }),
    timed("regeneration pushes into an open bus up to its ceiling", (make, node) => {
      const [plus, bus] = [node(), node()];
      make.source(plus, 0, 96, 0.05);
      const main = make.contact(plus, bus, true, 0.001);
      const bank = make.capacitor(bus, 0, 0.004);
      make.draw(bus, 0, -80, 0.05, 120);
      make.resistance(bus, 0, 1e4, "leak");
      return {
        duration: 0.005,
        volts: { [bank]: 100.08 },
        moves: [{ time: 0.001, branch: main, closed: false }],
        watch: [{ a: bus, b: 0, levels: [110, 115] }],
      };
    }),
    timed("pre-charge of a floating pack between its leaks", (make, node) => {
      const [plus, minus, busPlus, busMinus] = [node(), node(), node(), node()];
      make.source(plus, minus, 120, 0.05);
      make.resistance(plus, busPlus, 150, "resistor");
      make.resistance(minus, busMinus, 0.002);
      make.capacitor(busPlus, busMinus, 0.0022);
      make.resistance(plus, 0, 2e5, "leak");
      make.resistance(busMinus, 0, 1e5, "leak");
      return {
        duration: 1.5,
        watch: [
          { a: busPlus, b: busMinus, levels: [60, 108] },
          { a: minus, b: 0, levels: [] },
        ],
      };
    }),
    timed("capacitors from each pole to chassis of a floating pack", (make, node) => {
      const [plus, minus] = [node(), node()];
      make.source(plus, minus, 300, 0.1);
      const high = make.capacitor(plus, 0, 2e-6);
      const low = make.capacitor(minus, 0, 2e-6);
      make.resistance(plus, 0, 1e6, "leak");
      make.resistance(minus, 0, 1e6, "leak");
      const leak = make.contact(plus, 0, false, 2e4);
      return {
        duration: 0.4,
        volts: { [high]: 150, [low]: -150 },
        moves: [{ time: 0.05, branch: leak, closed: true }],
        watch: [
          { a: plus, b: 0, levels: [75, 20] },
          { a: minus, b: 0, levels: [] },
        ],
      };
    }),
  ];
}
