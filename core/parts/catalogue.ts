/** Every kind of part that a drawing may hold. To add one: its own file beside this one, and one line here. */
import type { PartKind } from "./define.ts";
import { acController } from "./ac-controller.ts";
import { batteryBlock } from "./battery-block.ts";
import { batteryMonitor } from "./battery-monitor.ts";
import { batteryPack } from "./battery-pack.ts";
import { busbar } from "./busbar.ts";
import { buzzer } from "./buzzer.ts";
import { capacitor } from "./capacitor.ts";
import { changeoverContactor } from "./changeover-contactor.ts";
import { charger } from "./charger.ts";
import { chassisPoint } from "./chassis-point.ts";
import { circuitBreaker } from "./circuit-breaker.ts";
import { connector } from "./connector.ts";
import { contactor } from "./contactor.ts";
import { controlUnit } from "./control-unit.ts";
import { currentSensor } from "./current-sensor.ts";
import { dcController } from "./dc-controller.ts";
import { dcDcConverter } from "./dc-dc-converter.ts";
import { dcSource } from "./dc-source.ts";
import { diode } from "./diode.ts";
import { display } from "./display.ts";
import { earthBond } from "./earth-bond.ts";
import { emergencyStop } from "./emergency-stop.ts";
import { fuse } from "./fuse.ts";
import { gauge } from "./gauge.ts";
import { heater } from "./heater.ts";
import { inertiaSwitch } from "./inertia-switch.ts";
import { inlet } from "./inlet.ts";
import { isolationMonitor } from "./isolation-monitor.ts";
import { keySwitch } from "./key-switch.ts";
import { lamp } from "./lamp.ts";
import { load } from "./load.ts";
import { manualDisconnect } from "./manual-disconnect.ts";
import { microSwitch } from "./micro-switch.ts";
import { motorAc } from "./motor-ac.ts";
import { motorCompound } from "./motor-compound.ts";
import { motorPermanentMagnet } from "./motor-permanent-magnet.ts";
import { motorSeparatelyExcited } from "./motor-separately-excited.ts";
import { motorSeries } from "./motor-series.ts";
import { pump } from "./pump.ts";
import { pushButton } from "./push-button.ts";
import { relay } from "./relay.ts";
import { resistor } from "./resistor.ts";
import { selectorSwitch } from "./selector-switch.ts";
import { shunt } from "./shunt.ts";
import { solidStateSwitch } from "./solid-state-switch.ts";
import { splice } from "./splice.ts";
import { suppressor } from "./suppressor.ts";
import { toggleSwitch } from "./switch.ts";
import { temperatureSwitch } from "./temperature-switch.ts";
import { terminalStrip } from "./terminal-strip.ts";
import { throttleHall } from "./throttle-hall.ts";
import { throttleThreeWire } from "./throttle-three-wire.ts";
import { throttleTwoWire } from "./throttle-two-wire.ts";
import { timerRelay } from "./timer-relay.ts";
import { voltageDivider } from "./voltage-divider.ts";
import { voltmeter } from "./voltmeter.ts";

const ALL: readonly PartKind[] = [
  acController,
  batteryBlock,
  batteryMonitor,
  batteryPack,
  busbar,
  buzzer,
  capacitor,
  changeoverContactor,
  charger,
  chassisPoint,
  circuitBreaker,
  connector,
  contactor,
  controlUnit,
  currentSensor,
  dcController,
  dcDcConverter,
  dcSource,
  diode,
  display,
  earthBond,
  emergencyStop,
  fuse,
  gauge,
  heater,
  inertiaSwitch,
  inlet,
  isolationMonitor,
  keySwitch,
  lamp,
  load,
  manualDisconnect,
  microSwitch,
  motorAc,
  motorCompound,
  motorPermanentMagnet,
  motorSeparatelyExcited,
  motorSeries,
  pump,
  pushButton,
  relay,
  resistor,
  selectorSwitch,
  shunt,
  solidStateSwitch,
  splice,
  suppressor,
  toggleSwitch,
  temperatureSwitch,
  terminalStrip,
  throttleHall,
  throttleThreeWire,
  throttleTwoWire,
  timerRelay,
  voltageDivider,
  voltmeter,
];

export const KINDS: ReadonlyMap<string, PartKind> = new Map(ALL.map((kind) => [kind.kind, kind]));

/** The kind of this name; undefined where there is none, so that the caller can name the place. */
export function kindOf(name: string): PartKind | undefined {
  return KINDS.get(name);
}
