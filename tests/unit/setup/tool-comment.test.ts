import assert from 'node:assert/strict';
import type { CommentContext, CommentFields } from '../../../server/src/setup/comment-reading.ts';
import { readToolComment } from '../../../server/src/setup/index.ts';

const inchMill: CommentContext = { units: 'inch', machine: 'mill' };
const mmMill: CommentContext = { units: 'mm', machine: 'mill' };
const inchLathe: CommentContext = { units: 'inch', machine: 'lathe' };
const mmLathe: CommentContext = { units: 'mm', machine: 'lathe' };

type Case = [context: CommentContext, text: string, number: number | undefined, fields: CommentFields];

// One or more for each shape of tool comment met in real programs; the numbers are our own. Sizes in mm: 1 in = 25.4 mm.
const shapes: Record<string, Case[]> = {
  'posted line with D and CR': [
    [
      mmMill,
      'T6 D=7.94 CR=0. - ZMIN=-11. - FLAT END MILL',
      6,
      { kind: 'end-mill', diameter_mm: 7.94, corner_radius_mm: 0 },
    ],
    [
      mmMill,
      'T6  D=7.94 CR=0 - ZMIN=-11 - flat end mill',
      6,
      { kind: 'end-mill', diameter_mm: 7.94, corner_radius_mm: 0 },
    ],
    [
      inchMill,
      'T6 D=0.375 CR=0.03 - ZMIN=-0.5 - BULLNOSE END MILL',
      6,
      { kind: 'bull-mill', diameter_mm: 9.525, corner_radius_mm: 0.762 },
    ],
    [
      mmMill,
      'T11 D=6.8 CR=0. TAPER=140DEG - ZMIN=-21. - DRILL',
      11,
      { kind: 'drill', diameter_mm: 6.8, point_angle_deg: 140 },
    ],
    [
      mmMill,
      'T5 D=8. CR=4. - ZMIN=-2. - BALL END MILL',
      5,
      { kind: 'ball-mill', diameter_mm: 8, corner_radius_mm: 4 },
    ],
    [
      mmMill,
      'T5 D=6. CR=0. TAPER=45DEG - ZMIN=-1. - CHAMFER MILL',
      5,
      { kind: 'chamfer-mill', diameter_mm: 6, corner_radius_mm: 0, point_angle_deg: 90 },
    ],
    [mmMill, 'T8 D=5. CR=0. - ZMIN=-9. - RIGHT HAND TAP', 8, { kind: 'tap', diameter_mm: 5, hand: 'right' }],
    [
      mmMill,
      'T2 D=4. CR=0. - ZMIN=-3. - FRESA PLANA',
      2,
      { kind: 'end-mill', diameter_mm: 4, corner_radius_mm: 0 },
    ],
    [
      mmMill,
      'T2 D=4. CR=0. - ZMIN=-3. - Schaftfrser',
      2,
      { kind: 'end-mill', diameter_mm: 4, corner_radius_mm: 0 },
    ],
  ],
  'hand-written, fraction or inch': [
    [inchMill, 'TOOL 3 = 7/16IN ENDMILL', 3, { kind: 'end-mill', diameter_mm: 11.1125 }],
    [inchMill, 'TOOL 2 = .4375IN ENDMILL 2 FLUTE', 2, { kind: 'end-mill', diameter_mm: 11.1125, teeth: 2 }],
    [inchMill, 'T4 .4375 DRILL', 4, { kind: 'drill', diameter_mm: 11.1125 }],
    [
      inchMill,
      'T2 3/4" 5FLUTE ENDMILL , 1.75 LOC',
      2,
      { kind: 'end-mill', diameter_mm: 19.05, teeth: 5, flute_length_mm: 44.45 },
    ],
    [
      inchMill,
      'T2 1/8" 2FLUTE BALL ENDMILL, .25 LOC',
      2,
      { kind: 'ball-mill', diameter_mm: 3.175, teeth: 2, flute_length_mm: 6.35 },
    ],
    [inchMill, 'T2 ENDMILL ROUGH , DIA: .75 , L: 2.5', 2, { kind: 'end-mill', diameter_mm: 19.05 }],
    [inchMill, 'T03 - 5/16" ENDMILL', 3, { kind: 'end-mill', diameter_mm: 7.9375 }],
    [inchMill, 'T11 -3/8" 4FL NORTHSHOP ENDMILL', 11, { kind: 'end-mill', diameter_mm: 9.525, teeth: 4 }],
    [inchMill, '5/8" END MILL W/3 FLUTES; T04', 4, { kind: 'end-mill', diameter_mm: 15.875, teeth: 3 }],
    [
      inchMill,
      'T9 = 2.5" FACE MILL 6 FLUTES SPEED 3500RPM FEED 28.IPM PRODUCT 04-1188',
      9,
      { kind: 'face-mill', diameter_mm: 63.5, teeth: 6 },
    ],
    [inchMill, 'T8 = .5 CHAMFER MILL 07-1142', 8, { kind: 'chamfer-mill', diameter_mm: 12.7 }],
    [
      inchMill,
      '3/4 HSS ENDMILL 4FLUTES VC=90 SFM .003 CPT',
      undefined,
      { kind: 'end-mill', diameter_mm: 19.05, teeth: 4, substrate: 'hss' },
    ],
    [inchMill, 'T1 1 1/4 ENDMILL 6FL', 1, { kind: 'end-mill', diameter_mm: 31.75, teeth: 6 }],
    [inchMill, 'T1 1-1/4" ENDMILL', 1, { kind: 'end-mill', diameter_mm: 31.75 }],
    [inchMill, 'T3 1/2 EM', 3, { kind: 'end-mill', diameter_mm: 12.7 }],
    [mmMill, 'T3 1/2 ENDMILL', 3, { kind: 'end-mill', diameter_mm: 12.7 }],
    [
      inchMill,
      'TOOL 12 - 12MM ENDMILL TIALN SOLID CARBIDE THREE FLUTE',
      12,
      { kind: 'end-mill', diameter_mm: 12, teeth: 3, substrate: 'carbide', coating: 'TIALN' },
    ],
  ],
  'one line of several': [
    [mmMill, 'TOOL TYPE : ENDMILL', undefined, { kind: 'end-mill' }],
    [
      mmMill,
      'TOOL DIA.: 16 ; TIP RAD.: 2 & LENGTH : 60',
      undefined,
      { diameter_mm: 16, corner_radius_mm: 2 },
    ],
    [inchMill, ' Tool = Endmill 5mm ', undefined, { kind: 'end-mill', diameter_mm: 5 }],
  ],
  'other languages': [
    [mmMill, 'BROCA DIAMETRO 7MM', undefined, { kind: 'drill', diameter_mm: 7 }],
    [mmMill, 'BROCA DIAM 3MM', undefined, { kind: 'drill', diameter_mm: 3 }],
  ],
  'labels and columns': [
    [mmMill, 'Tool: 3 -> Dia: 1.2', 3, { diameter_mm: 1.2 }],
    [mmMill, 'TOOL DIAMETER: 5.0', undefined, { diameter_mm: 5 }],
    [mmMill, 'T11 |    8. FLAT ENDMILL | H11', 11, { kind: 'end-mill', diameter_mm: 8 }],
    [mmMill, 'MSG, Change to Tool Dia = 1.2000', undefined, { diameter_mm: 1.2 }],
    [mmMill, 'MSG, Change tool bit to mill diameter 3.00000mm', undefined, { diameter_mm: 3 }],
    [mmMill, 'TC: 4mm_Endmill_2flutes002', undefined, { kind: 'end-mill', diameter_mm: 4, teeth: 2 }],
    [
      inchMill,
      'begin operation: NORTHSHOP 1/8" Downcut Carbide End Mill004',
      undefined,
      { kind: 'end-mill', diameter_mm: 3.175, substrate: 'carbide' },
    ],
    [mmMill, 'Compensated Tool Path. Diameter: 6.0', undefined, { diameter_mm: 6 }],
    [mmMill, 'TOOL: cylinder-6mm', undefined, { diameter_mm: 6 }],
    [
      mmMill,
      'Tool 5: Flat End Mill 2 Flutes, Diam = 4mm, Len = 12.00mm',
      5,
      { kind: 'end-mill', diameter_mm: 4, teeth: 2 },
    ],
    [
      mmMill,
      'TOOL/MILL, dia: 4.000, LOC:14.000, 3.0 Flute, carbide',
      undefined,
      { diameter_mm: 4, flute_length_mm: 14, teeth: 3, substrate: 'carbide' },
    ],
    [mmMill, 'TOOL/MILL,6.0,1.0,20.0,0.0', undefined, { diameter_mm: 6, corner_radius_mm: 1 }],
    [mmMill, 'T4 Ø8 DRILL', 4, { kind: 'drill', diameter_mm: 8 }],
    [mmMill, 'T2 SPOT DRILL 10MM 90DEG', 2, { kind: 'spot-drill', diameter_mm: 10, point_angle_deg: 90 }],
    [
      mmMill,
      'T6 - 12.0 MM ENDMILL, 3 FLUTES, CORNER R0.5',
      6,
      { kind: 'end-mill', diameter_mm: 12, teeth: 3, corner_radius_mm: 0.5 },
    ],
    [mmMill, 'T7 D6. 2FL SLOT DRILL', 7, { kind: 'end-mill', diameter_mm: 6, teeth: 2 }],
    [
      inchMill,
      'T3 1/2 ENDMILL FLUTES: 4 STICKOUT 1.5',
      3,
      { kind: 'end-mill', diameter_mm: 12.7, teeth: 4, stickout_mm: 38.1 },
    ],
  ],
  'drill numbers, letters and threads': [
    [inchMill, 'T8 - DRILL NO. 7 .201 DIA', 8, { kind: 'drill', diameter_mm: 5.1054 }],
    [inchMill, 'T4 #7 DRILL', 4, { kind: 'drill', diameter_mm: 5.1054 }],
    [inchMill, 'T4 F DRILL', 4, { kind: 'drill', diameter_mm: 6.5278 }],
    [inchMill, 'T4 LETTER Q DRILL', 4, { kind: 'drill', diameter_mm: 8.4328 }],
    [inchMill, 'T9 - TAP 1/4-20 UNC SPIRAL POINT', 9, { kind: 'tap', diameter_mm: 6.35, pitch_mm: 1.27 }],
    [mmMill, 'T9 M10X1.5 TAP', 9, { kind: 'tap', diameter_mm: 10, pitch_mm: 1.5 }],
    [mmMill, 'T9 M6 FORM TAP', 9, { kind: 'tap', diameter_mm: 6, pitch_mm: 1 }],
    [inchMill, 'T9 10-32 TAP', 9, { kind: 'tap', diameter_mm: 4.826, pitch_mm: 0.79375 }],
    [inchMill, 'T4 DRILL .201 FOR 1/4-20 TAP', 4, { kind: 'drill', diameter_mm: 5.1054 }],
    [inchMill, 'T4 TAP DRILL .201', 4, { kind: 'drill', diameter_mm: 5.1054 }],
  ],
  'numbers that belong to something else beside the size': [
    [inchMill, 'TOOL - 2 DIA. OFF. - 42 LEN. - 2 DIA. - .375', 2, { diameter_mm: 9.525 }],
    [
      inchMill,
      'T2 | 5/16 FLAT ENDMILL | H2 | D2 | XY STOCK TO LEAVE - .01',
      2,
      { kind: 'end-mill', diameter_mm: 7.9375 },
    ],
    [mmMill, 'T9 SHELL MILL 80 DIA 6 INSERTS', 9, { kind: 'face-mill', diameter_mm: 80 }],
    [inchMill, 'T4 3/4 EM .03R', 4, { kind: 'end-mill', diameter_mm: 19.05, corner_radius_mm: 0.762 }],
    [
      inchMill,
      'TOOL #3 .625 4FL CARB EM .060 RAD',
      3,
      { kind: 'end-mill', diameter_mm: 15.875, teeth: 4, corner_radius_mm: 1.524, substrate: 'carbide' },
    ],
    [inchMill, 'T2 .25 DRILL THRU .5 PLATE', 2, { kind: 'drill', diameter_mm: 6.35 }],
    [inchMill, 'T2 1/2 LONG ENDMILL', 2, { kind: 'end-mill', diameter_mm: 12.7 }],
    [mmMill, 'T5 6.8 DRILL 30 DEEP', 5, { kind: 'drill', diameter_mm: 6.8 }],
    [mmMill, 'N2 T2 8MM ENDMILL', 2, { kind: 'end-mill', diameter_mm: 8 }],
    [mmMill, 'LOAD T4 5MM DRILL', 4, { kind: 'drill', diameter_mm: 5 }],
    [
      mmMill,
      'T2 3MM 2 FLUTE ENDMILL, 6MM SHANK, 9MM LOC',
      2,
      { kind: 'end-mill', diameter_mm: 3, teeth: 2, shank_diameter_mm: 6, flute_length_mm: 9 },
    ],
    [inchMill, 'T3 3/4 THREADMILL 16 TPI', 3, { kind: 'thread-mill', diameter_mm: 19.05, pitch_mm: 1.5875 }],
  ],
  'lathe tools': [
    [
      inchLathe,
      'TO3 = 35* Turning Tool, Insert: 09-0043, Tool Nose Radius: .0313, Tool Tip: 3',
      3,
      { kind: 'turn', nose_radius_mm: 0.79502, tip_direction: 3 },
    ],
    [
      inchLathe,
      'T1111 OD TURN CNMG 432 CR:.031 GRADE',
      11,
      { kind: 'turn', insert: 'CNMG432', nose_radius_mm: 0.7874 },
    ],
    [
      inchLathe,
      'T11: OD TURN: CNMG 431 GRADE',
      11,
      { kind: 'turn', insert: 'CNMG431', nose_radius_mm: 0.396875 },
    ],
    [mmLathe, 'T0101 OD ROUGH CNMG 120408', 1, { kind: 'turn', insert: 'CNMG120408', nose_radius_mm: 0.8 }],
    [mmLathe, 'T0303 OD FINISH VNMG 160404', 3, { kind: 'turn', insert: 'VNMG160404', nose_radius_mm: 0.4 }],
    [
      inchLathe,
      'T0808 3/4" BORING BAR, .016 NOSE RADIUS',
      8,
      { kind: 'bore-bar', shank_diameter_mm: 19.05, nose_radius_mm: 0.4064 },
    ],
    [inchLathe, 'T9: OD GROOVE FULL RADIUS .125 WIDTH', 9, { kind: 'groove', width_mm: 3.175 }],
    [mmLathe, 'ER 16 ISO 1.75 INSERT', undefined, { kind: 'thread-turn', pitch_mm: 1.75 }],
    [mmLathe, 'T0505 THREAD 60 DEG 16ER 1.5 ISO', 5, { kind: 'thread-turn', pitch_mm: 1.5 }],
    [inchLathe, 'T0202 OD TOOL, TNR .031', 2, { kind: 'turn', nose_radius_mm: 0.7874 }],
    [inchLathe, 'T0606 GROOVE .125 WIDE', 6, { kind: 'groove', width_mm: 3.175 }],
    [inchLathe, 'T101 .5 DRILL', 1, { kind: 'drill', diameter_mm: 12.7 }],
  ],
};

describe('setup: tool comments that are read', () => {
  for (const [shape, cases] of Object.entries(shapes)) {
    for (const [context, text, number, fields] of cases) {
      it(`${shape}: (${text})`, () => {
        const reading = readToolComment(text, context);
        assert.equal(reading.number, number);
        assert.deepEqual(reading.fields, fields);
        assert.deepEqual(reading.doubts, []);
      });
    }
  }
});

// Comments with numbers that are no size, and what may still be read of them.
const notSizes: [context: CommentContext, text: string, fields: CommentFields][] = [
  [inchMill, 'T4 DRILL 4 HOLES .5 DEEP', { kind: 'drill' }],
  [inchMill, 'T3 ENDMILL H3 D3', { kind: 'end-mill' }],
  [inchMill, 'T3 ENDMILL D03 OFFSET', { kind: 'end-mill' }],
  [mmMill, 'T5 DRILL 2024-05-12', { kind: 'drill' }],
  [mmMill, 'T5 DRILL 12/05/2024', { kind: 'drill' }],
  [mmMill, 'T5 ENDMILL PART 1188', { kind: 'end-mill' }],
  [inchMill, 'T5 ENDMILL 04-1188', { kind: 'end-mill' }],
  [inchMill, 'T5 ENDMILL S4000 F20.', { kind: 'end-mill' }],
  [inchMill, 'T5 ENDMILL 4000 RPM 20. IPM', { kind: 'end-mill' }],
  [inchMill, 'T5 ENDMILL X1.5 Y2.5 Z-.5', { kind: 'end-mill' }],
  [inchMill, 'T5 ENDMILL FINISH BORE DIA 1.25', { kind: 'end-mill' }],
  [mmMill, 'T5 BALL ENDMILL R5', { kind: 'ball-mill' }],
  [mmMill, 'T5 CHAMFER MILL 60 DEG', { kind: 'chamfer-mill' }],
  [inchMill, 'G01 X1.0 F20.', {}],
  [inchMill, 'ROUGH POCKET .5 DEEP', {}],
  [inchMill, 'STOCK 4.0 X 2.0 X 1.0', {}],
  [inchMill, 'DATE 05-12-24 TIME 14:05', {}],
  [inchMill, 'O1001 BRACKET REV 2', {}],
  [inchMill, 'T', {}],
  [inchMill, '', {}],
];

describe('setup: numbers in comments that are no sizes', () => {
  for (const [context, text, fields] of notSizes) {
    it(`(${text})`, () => assert.deepEqual(readToolComment(text, context).fields, fields));
  }
});

// Comments that can be read two ways: not read, asked.
const doubtful: [context: CommentContext, text: string, about: string][] = [
  [inchMill, 'TC: 250_endmill', 'diameter_mm'],
  [mmMill, 'TC: 250_endmill', 'diameter_mm'],
  [mmMill, 'CORTE 3FILOS8MM4DIAM', 'diameter_mm'],
  [inchLathe, 'tool 3, 55 deg .16 TNR', 'nose_radius_mm'],
  [mmMill, 'T3 D10 ENDMILL', 'diameter_mm'],
  [mmMill, 'T3 40 DIA 63 FACE MILL', 'diameter_mm'],
  [{ units: undefined }, 'T5 .375 DRILL', 'diameter_mm'],
  [{ units: undefined }, 'T5 D=9.5 CR=0. DRILL', 'diameter_mm'],
  [inchMill, 'T5 3/8 1/2 DRILL', 'diameter_mm'],
  [inchMill, 'T5 12. ENDMILL', 'diameter_mm'],
  [mmMill, 'T5 .375 ENDMILL', 'diameter_mm'],
  [mmMill, 'T5 #7 DRILL', 'diameter_mm'],
  [inchMill, 'T5 #7 DRILL .25 DIA', 'diameter_mm'],
  [mmMill, 'T5 D=4. CR=3. - END MILL', 'corner_radius_mm'],
];

describe('setup: tool comments that are asked about', () => {
  for (const [context, text, about] of doubtful) {
    it(`(${text}) in ${context.units}`, () => {
      const { fields, doubts } = readToolComment(text, context);
      assert.equal(Object.hasOwn(fields, about), false, JSON.stringify(fields));
      assert.deepEqual(
        doubts.map(doubt => doubt.about),
        [about],
      );
    });
  }
  it('marks what the writer was not sure of', () => {
    assert.match(readToolComment('T05 - 1.2"-ISH INSERT DRILL', inchLathe).uncertain ?? '', /ISH/);
    assert.match(readToolComment('T0808 1" BORING BAR OR SIMILAR', inchLathe).uncertain ?? '', /SIMILAR/);
    assert.equal(readToolComment('T0808 1" BORING BAR', inchLathe).uncertain, undefined);
  });
  it('keeps lengths, speeds and deepest Z aside', () => {
    assert.deepEqual(readToolComment('T2 ENDMILL, DIA: .75 , L: 3. ZMIN=-.5', inchMill).asides, {
      length_mm: 76.2,
      deepest_z_mm: -12.7,
    });
    assert.deepEqual(readToolComment('3/4 ENDMILL VC=100 SFM .002 CPT', inchMill).asides, {
      surface_speed_m_min: 30.48,
      chip_load_mm: 0.0508,
    });
  });
});
