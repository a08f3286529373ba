/** Every check, in the order in which a person should mend: what kills first, what is only untidy last. */
import type { Check } from "./define.ts";
import { terminalUnconnected } from "./connections/terminal-unconnected.ts";
import { wireLooseEnd } from "./connections/wire-loose-end.ts";
import { noReturnPath } from "./connections/no-return-path.ts";
import { stateUnreachable } from "./connections/state-unreachable.ts";
import { designationDuplicate } from "./connections/designation-duplicate.ts";
import { studCrowded } from "./connections/stud-crowded.ts";
import { lugMisfit } from "./connections/lug-misfit.ts";
import { connectorMismatch } from "./connections/connector-mismatch.ts";
import { supplyReversed } from "./polarity/supply-reversed.ts";
import { blockReversed } from "./polarity/block-reversed.ts";
import { polarisedContactReversed } from "./polarity/polarised-contact-reversed.ts";
import { diodeReversed } from "./polarity/diode-reversed.ts";
import { sourceShorted } from "./shorts/source-shorted.ts";
import { stringsUnequal } from "./shorts/strings-unequal.ts";
import { loadBypassed } from "./shorts/load-bypassed.ts";
import { contactsCanShort } from "./shorts/contacts-can-short.ts";
import { acDcJoined } from "./shorts/ac-dc-joined.ts";
import { branchUnprotected } from "./overcurrent/branch-unprotected.ts";
import { protectionOversized } from "./overcurrent/protection-oversized.ts";
import { protectionDistant } from "./overcurrent/protection-distant.ts";
import { protectionVoltageLow } from "./overcurrent/protection-voltage-low.ts";
import { protectionInterruptingLow } from "./overcurrent/protection-interrupting-low.ts";
import { motorLeadFused } from "./overcurrent/motor-lead-fused.ts";
import { holderUnderrated } from "./overcurrent/holder-underrated.ts";
import { protectionSlow } from "./overcurrent/protection-slow.ts";
import { faultCurrentLow } from "./overcurrent/fault-current-low.ts";
import { selectivityLost } from "./overcurrent/selectivity-lost.ts";
import { protectionNuisance } from "./overcurrent/protection-nuisance.ts";
import { stringUnfused } from "./overcurrent/string-unfused.ts";
import { bondedPoleUnprotected } from "./overcurrent/bonded-pole-unprotected.ts";
import { mainSwitchMissing } from "./switching/main-switch-missing.ts";
import { disconnectMissing } from "./switching/disconnect-missing.ts";
import { emergencyStopMissing } from "./switching/emergency-stop-missing.ts";
import { emergencyStopIneffective } from "./switching/emergency-stop-ineffective.ts";
import { liveWhenParked } from "./switching/live-when-parked.ts";
import { contactVoltageLow } from "./switching/contact-voltage-low.ts";
import { contactCurrentLow } from "./switching/contact-current-low.ts";
import { breaksUnderLoad } from "./switching/breaks-under-load.ts";
import { makesOnInrush } from "./switching/makes-on-inrush.ts";
import { liveOutsideBox } from "./switching/live-outside-box.ts";
import { heldByBackfeed } from "./switching/held-by-backfeed.ts";
import { relayChatter } from "./switching/relay-chatter.ts";
import { regenerationIntoOpenContact } from "./switching/regeneration-into-open-contact.ts";
import { prechargeMissing } from "./precharge/precharge-missing.ts";
import { prechargeOrder } from "./precharge/precharge-order.ts";
import { prechargeIncomplete } from "./precharge/precharge-incomplete.ts";
import { prechargeBypassesSwitch } from "./precharge/precharge-bypasses-switch.ts";
import { prechargeResistorOverload } from "./precharge/precharge-resistor-overload.ts";
import { prechargeStaysIn } from "./precharge/precharge-stays-in.ts";
import { prechargeContactLow } from "./precharge/precharge-contact-low.ts";
import { staysCharged } from "./precharge/stays-charged.ts";
import { coilVoltageWrong } from "./coils/coil-voltage-wrong.ts";
import { coilWeak } from "./coils/coil-weak.ts";
import { driverOverloaded } from "./coils/driver-overloaded.ts";
import { coilUnsuppressed } from "./coils/coil-unsuppressed.ts";
import { coilReleaseSlow } from "./coils/coil-release-slow.ts";
import { coilSneakPath } from "./coils/coil-sneak-path.ts";
import { outputUndefined } from "./coils/output-undefined.ts";
import { overvoltage } from "./voltages/overvoltage.ts";
import { logicOvervoltage } from "./voltages/logic-overvoltage.ts";
import { undervoltage } from "./voltages/undervoltage.ts";
import { chargerMismatch } from "./voltages/charger-mismatch.ts";
import { sourceOverloaded } from "./voltages/source-overloaded.ts";
import { insulationLow } from "./voltages/insulation-low.ts";
import { tractionOnChassis } from "./shock/traction-on-chassis.ts";
import { tractionOnAuxiliary } from "./shock/traction-on-auxiliary.ts";
import { isolationLow } from "./shock/isolation-low.ts";
import { exposedBesideLowVoltage } from "./shock/exposed-beside-low-voltage.ts";
import { exposedOppositePoles } from "./shock/exposed-opposite-poles.ts";
import { exposedLive } from "./shock/exposed-live.ts";
import { serialPortLive } from "./shock/serial-port-live.ts";
import { tractionNotOrange } from "./shock/traction-not-orange.ts";
import { enclosureUnbonded } from "./shock/enclosure-unbonded.ts";
import { mixedCable } from "./shock/mixed-cable.ts";
import { isolatedReturnsJoined } from "./shock/isolated-returns-joined.ts";
import { structureAsReturn } from "./shock/structure-as-return.ts";
import { barrierSingle } from "./shock/barrier-single.ts";
import { interlockOpen } from "./shock/interlock-open.ts";
import { powerPinsAdjacent } from "./shock/power-pins-adjacent.ts";
import { creepageShort } from "./shock/creepage-short.ts";
import { warningMarkMissing } from "./shock/warning-mark-missing.ts";
import { conductorOverloaded } from "./conductors/conductor-overloaded.ts";
import { voltageDrop } from "./conductors/voltage-drop.ts";
import { temperatureClass } from "./conductors/temperature-class.ts";
import { conductorFragile } from "./conductors/conductor-fragile.ts";
import { conductorUnprotectedThroughWall } from "./conductors/conductor-unprotected-through-wall.ts";
import { jumpersMixed } from "./conductors/jumpers-mixed.ts";
import { throttleMismatch } from "./controls/throttle-mismatch.ts";
import { inertiaSwitchMissing } from "./controls/inertia-switch-missing.ts";
import { brakeCutMissing } from "./controls/brake-cut-missing.ts";
import { pedalInterlockMissing } from "./controls/pedal-interlock-missing.ts";
import { enableBypassesKey } from "./controls/enable-bypasses-key.ts";
import { drivesWhileCharging } from "./controls/drives-while-charging.ts";
import { stopNeedsPower } from "./controls/stop-needs-power.ts";
import { externalCutMismatch } from "./controls/external-cut-mismatch.ts";
import { assistLostWithStop } from "./controls/assist-lost-with-stop.ts";
import { motionOnEnable } from "./controls/motion-on-enable.ts";
import { fieldCanOpen } from "./controls/field-can-open.ts";
import { towIsolationMissing } from "./controls/tow-isolation-missing.ts";
import { throttleFaultDrives } from "./controls/throttle-fault-drives.ts";
import { singleFaultMotion } from "./controls/single-fault-motion.ts";
import { chargerLiveAtDisconnect } from "./charging/charger-live-at-disconnect.ts";
import { chargerJoinedWhileDriving } from "./charging/charger-joined-while-driving.ts";
import { chargerWithoutPack } from "./charging/charger-without-pack.ts";
import { chargerWithoutMonitor } from "./charging/charger-without-monitor.ts";
import { protectionBypassed } from "./charging/protection-bypassed.ts";
import { senseSideWrong } from "./charging/sense-side-wrong.ts";
import { meterUnfed } from "./charging/meter-unfed.ts";
import { polarityPlugUnkeyed } from "./charging/polarity-plug-unkeyed.ts";
import { stringTap } from "./charging/string-tap.ts";
import { converterOverloaded } from "./charging/converter-overloaded.ts";
import { converterUnwatched } from "./charging/converter-unwatched.ts";
import { startUpLoop } from "./charging/start-up-loop.ts";
import { standingDrain } from "./charging/standing-drain.ts";
import { dataMissing } from "./drawing/data-missing.ts";
import { titleIncomplete } from "./drawing/title-incomplete.ts";
import { wireShort } from "./drawing/wire-short.ts";
import { wireUnnumbered } from "./drawing/wire-unnumbered.ts";
import { viewUnplaced } from "./drawing/view-unplaced.ts";
import { limitsUnstated } from "./drawing/limits-unstated.ts";

export const CHECKS: readonly Check[] = [
  sourceShorted,
  blockReversed,
  supplyReversed,
  stringsUnequal,
  stringTap,
  tractionOnChassis,
  tractionOnAuxiliary,
  isolatedReturnsJoined,
  acDcJoined,
  logicOvervoltage,
  serialPortLive,
  overvoltage,
  chargerMismatch,
  loadBypassed,
  contactsCanShort,
  diodeReversed,
  branchUnprotected,
  bondedPoleUnprotected,
  protectionVoltageLow,
  protectionInterruptingLow,
  stringUnfused,
  protectionOversized,
  protectionDistant,
  protectionSlow,
  faultCurrentLow,
  motorLeadFused,
  holderUnderrated,
  conductorOverloaded,
  sourceOverloaded,
  temperatureClass,
  insulationLow,
  enableBypassesKey,
  mainSwitchMissing,
  disconnectMissing,
  emergencyStopIneffective,
  stopNeedsPower,
  emergencyStopMissing,
  prechargeMissing,
  prechargeOrder,
  prechargeIncomplete,
  prechargeBypassesSwitch,
  prechargeResistorOverload,
  prechargeStaysIn,
  staysCharged,
  heldByBackfeed,
  relayChatter,
  liveWhenParked,
  contactVoltageLow,
  contactCurrentLow,
  breaksUnderLoad,
  makesOnInrush,
  polarisedContactReversed,
  regenerationIntoOpenContact,
  coilVoltageWrong,
  outputUndefined,
  coilWeak,
  coilSneakPath,
  driverOverloaded,
  coilUnsuppressed,
  exposedBesideLowVoltage,
  exposedLive,
  exposedOppositePoles,
  isolationLow,
  tractionNotOrange,
  enclosureUnbonded,
  mixedCable,
  powerPinsAdjacent,
  creepageShort,
  wireLooseEnd,
  terminalUnconnected,
  structureAsReturn,
  noReturnPath,
  connectorMismatch,
  throttleMismatch,
  throttleFaultDrives,
  singleFaultMotion,
  fieldCanOpen,
  motionOnEnable,
  externalCutMismatch,
  drivesWhileCharging,
  protectionBypassed,
  chargerWithoutPack,
  converterOverloaded,
  chargerWithoutMonitor,
  chargerLiveAtDisconnect,
  polarityPlugUnkeyed,
  meterUnfed,
  standingDrain,
  startUpLoop,
  converterUnwatched,
  senseSideWrong,
  chargerJoinedWhileDriving,
  stateUnreachable,
  studCrowded,
  lugMisfit,
  warningMarkMissing,
  interlockOpen,
  barrierSingle,
  conductorUnprotectedThroughWall,
  conductorFragile,
  undervoltage,
  prechargeContactLow,
  coilReleaseSlow,
  towIsolationMissing,
  assistLostWithStop,
  pedalInterlockMissing,
  brakeCutMissing,
  inertiaSwitchMissing,
  voltageDrop,
  jumpersMixed,
  liveOutsideBox,
  selectivityLost,
  protectionNuisance,
  designationDuplicate,
  dataMissing,
  limitsUnstated,
  wireShort,
  viewUnplaced,
  titleIncomplete,
  wireUnnumbered,
];
