/** Chassis point: a stud on the vehicle's body, motor, frame or hull. */
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import { CHASSIS } from "./element.ts";
import { tie } from "./make-element.ts";
import { choice } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { chassisMark, drawn, pin, view } from "./symbol.ts";

const terminals: readonly TerminalSpec[] = [terminal("stud", "stud", false, "Stud")];

/**
 * The node of a structure: every point on one structure is one node. The network maps the vehicle's main structure to
 * the chassis; a point whose structure nobody stated is on the main one.
 */
export const structureNode = (values: Values): string => {
  const structure = values.choice("structure");
  return structure === undefined ? CHASSIS : `#structure:${structure}`;
};

export const chassisPoint = definePart({
  kind: "chassis-point",
  letter: "X",
  title: "Chassis point",
  words: ["ground", "earth", "body ground", "frame ground", "ground stud"],
  group: "connecting",
  explanation: "A place where wires are bolted to the metal of the vehicle; all points of one structure are joined.",
  parameters: {
    structure: choice(["body", "motor", "frame", "hull"], {
      title: "Structure",
      explanation: "Which piece of metal it is on; rubber mounts and paint part body, motor and frame from each other.",
      where: "Where you drill the hole.",
    }),
  },
  terminals: () => terminals,
  supplyPairs: () => [],
  views: () => [
    view(
      "main",
      "Chassis point",
      drawn(chassisMark(0, 0), [pin("stud", 0, 0, "up")], { x: 3.5, y: 3, anchor: "start" }),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ values }) => [tie("chassis", "stud", structureNode(values), true)],
  limits: () => [],
  traits: { chassisPoint: true },
  notes: ["A point of unstated structure is taken to be on the vehicle's main one."],
});
