import { describe, expect, test } from "vitest";
import { importWireList } from "../../../core/exchange/import-wire-list.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import { knownPart } from "../../../core/project/lookup.ts";
import { newProject } from "../../../core/project/new-project.ts";
import { readProject } from "../../../core/project/read.ts";
import { writeProject } from "../../../core/project/write.ts";

/** The orchard tug of the village workshop: four blocks, fuse, contactor, controller, motor, and its 12 V side. */
const PARTS = `designation,kind,parameters,zone,enclosure
G1,battery-block,chemistry=agm-lead; capacity=150 Ah; note=nearest the axle,battery-box,Battery box
G2,battery-block,chemistry=agm-lead; capacity=150 Ah,battery-box,Battery box
G3,battery-block,chemistry=agm-lead; capacity=150 Ah,battery-box,Battery box
G4,battery-block,chemistry=agm-lead; capacity=150 Ah,battery-box,Battery box
F1,fuse,rating=200 A; curvePoints=2:100 s; 5:0.5 s; finish=bare,battery-box,
Q1,contactor,coilVoltage=12 V,engine,
T1,dc-controller,,engine,
M1,motor-series,,engine,
G10,battery-block,duty=auxiliary,engine,
F2,fuse,rating=10,engine,
S1,key-switch,,passenger,
`;
const WIRES = `from,to,size,length,colour
G1:+,G2:-,50 mm2,0.3 m,orange
G2:+,G3:-,50 mm2,0.3 m,orange
G3:+,G4:-,50 mm2,0.3 m,orange
G4:+,F1:1,50 mm2,0.2 m,orange
F1:2,Q1:line,50 mm2,1 m,orange
Q1:load,T1:B+,50 mm2,1 m,orange
T1:B-,G1:-,50 mm2,2 m,orange
T1:B+,M1:A1,50 mm2,1 m,orange
M1:A2,M1:S1,50 mm2,0.2 m,orange
M1:S2,T1:M-,50 mm2,1 m,orange
G10:+,F2:1,2.5 mm2,0.1 m,RD
F2:2,S1:battery,2.5 mm2,2 m,RD
S1:ignition,Q1:coil+,1.5 mm2,2 m,BU
Q1:coil-,G10:-,1.5 mm2,2 m,BK
`;

describe("with the real kinds of parts and the real layout", () => {
  const result = importWireList(WIRES, PARTS);
  const project = result.ok ? result.project : newProject();

  test("a list is imported, saved and read back equal", () => {
    expect(result).toMatchObject({
      ok: true,
      summary: expect.stringMatching(/^11 parts and 14 wires on \d+ sheets?\.$/) as string,
    });
    expect(readProject(writeProject(project))).toEqual({ ok: true, project, notes: [] });
  });

  test("every view of every part lies on a sheet, once", () => {
    for (const part of project.parts) {
      const views =
        knownPart(part, KINDS)
          ?.views()
          .map(({ id }) => id) ?? [];
      expect(views.length).toBeGreaterThan(0);
      expect(part.views.map(({ view }) => view).sort()).toEqual([...views].sort());
    }
  });
});
