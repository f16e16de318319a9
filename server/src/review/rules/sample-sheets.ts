/** Setup sheets that several rule cases share. */
export const BRACKET_SHEET =
  '{ "units": "inch", "machine": { "kind": "mill", "dialect": "iso6983" }, "workpiece": { "material": "6061-T6" }, "workholding": { "grip": "firm" }, "tools": { "1": { "kind": "end-mill", "diameter": 0.5, "teeth": 3, "substrate": "carbide", "stickout": 1.2, "wear": "new" } } }';

export const BUSHING_SHEET =
  '{ "units": "mm", "machine": { "kind": "lathe", "dialect": "lathe-a" }, "workpiece": { "material": "C45" }, "tools": { "1": { "kind": "turn", "nose_radius": 0.8, "substrate": "carbide" } } }';
