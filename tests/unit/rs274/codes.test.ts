import assert from 'node:assert/strict';
import { codesManual } from '../../../server/src/rs274/codes/manual.ts';
import { DIALECTS, EFFECTS, MACHINE_KINDS } from '../../../server/src/rs274/codes/shape.ts';
import { CODES, codeFor, codeIndex, codeName, meaningsOf } from '../../../server/src/rs274/codes/table.ts';

/** Codes that must be known, and where: n ngc, i iso6983, a b c lathe code systems, * some controls. */
const KNOWN_CODES = `
  G0:niabc G1:niabc G2:niabc G3:niabc G4:niabc G5:n* G5.1:n* G5.2:n G5.3:n G7:n G8:n G7.1:abc*
  G107:abc G9:iabc G10:niabc G11:iabc* G12:* G13:* G12.1:abc G13.1:abc G112:abc G113:abc
  G15:iabc* G16:iabc* G17:niabc G18:niabc G19:niabc G17.1:n G18.1:n G19.1:n G20:niabc G21:niabc
  G22:iabc* G23:iabc* G27:iabc* G28:niabc G28.1:n G29:iabc* G30:niabc G30.1:n G31:iabc* G32:a
  G33:nbci G33.1:n G34:abc G38.2:n G38.3:n G38.4:n G38.5:n G40:niabc G41:niabc G42:niabc G41.1:n
  G42.1:n G43:ni* G43.1:n G43.2:n G43.4:* G44:i* G45:* G49:ni* G50:a* G51:* G50.1:* G51.1:*
  G51.2:abc G50.2:abc G52:niabc* G53:niabc G54:niabc G55:niabc G56:niabc G57:niabc G58:niabc
  G59:niabc G59.1:n G59.2:n G59.3:n G54.1:* G154:* G60:* G61:ni* G61.1:n G62:* G63:* G64:ni*
  G65:iabc* G66:iabc* G67:iabc* G68:i* G68.2:* G69:i* G70:abnci G71:abnci G72:abn G73:abni*
  G74:abni* G75:ab G76:abni* G77:b G78:b G79:b G24:c G80:niabc G81:ni* G82:ni* G83:ni*abc
  G84:ni*abc G85:ni*abc G86:ni* G87:ni*abc G88:ni*abc G89:ni*abc G84.2:* G84.3:* G90:niabc
  G91:nibc* G90.1:n* G91.1:n* G92:niabc G92.1:n* G92.2:n G92.3:n G93:ni* G94:niabc G95:nibc*
  G96:niabc G97:niabc G98:niabc G99:niabc G100:* M0:niabc M1:niabc M2:niabc M30:niabc M60:n
  M3:niabc M4:niabc M5:niabc M6:ni* M7:niabc M8:niabc M9:niabc M10:* M13:* M19:ni* M29:iabc*
  M41:* M48:ni* M49:ni* M50:n M51:n M52:n M53:n M61:n M62:n M70:n M97:* M98:niabc* M99:niabc*
  M100:n* M198:* M154:*
`;
const DIALECT_OF: Record<string, (typeof DIALECTS)[number]> = {
  n: 'ngc',
  i: 'iso6983',
  a: 'lathe-a',
  b: 'lathe-b',
  c: 'lathe-c',
};

const codes = KNOWN_CODES.trim()
  .split(/\s+/)
  .map(text => {
    const [name = '', where = ''] = text.split(':');
    return {
      letter: name.startsWith('G') ? ('G' as const) : ('M' as const),
      number: Number(name.slice(1)),
      name,
      where: [...where],
    };
  });

describe('code table', () => {
  it('knows 163 codes, each in every dialect that has it', () => {
    assert.equal(codes.length, 163);
    for (const { letter, number, name, where } of codes) {
      for (const mark of where) {
        const dialects = mark === '*' ? DIALECTS : [DIALECT_OF[mark] ?? 'ngc'];
        const found = dialects.some(dialect =>
          MACHINE_KINDS.some(kind => codeFor(letter, number, dialect, kind)),
        );
        assert.ok(found, `${name} in ${dialects.join(' or ')}`);
      }
    }
  });

  it('gives a code one meaning in one dialect on one kind of machine', () => {
    for (const dialect of DIALECTS) {
      for (const kind of MACHINE_KINDS) {
        const seen = new Set<string>();
        for (const row of CODES) {
          if (row.through !== undefined || !row.dialects.includes(dialect)) continue;
          if (row.kind !== undefined && row.kind !== kind) continue;
          const name = codeName(row);
          assert.ok(!seen.has(name), `${name} twice in ${dialect} ${kind}`);
          seen.add(name);
        }
      }
    }
  });

  it('says of every code that is not followed what stays unchecked, and of no other', () => {
    for (const row of CODES) {
      assert.equal(row.leaves_unchecked !== undefined, row.effect === 'not-followed', codeName(row));
      assert.ok(EFFECTS.includes(row.effect));
      if (row.motion === 'unknown-position' && row.effect === 'accepted') assert.fail(codeName(row));
    }
  });

  it('has an example that holds the code itself', () => {
    for (const row of CODES) {
      const examples = row.example.split(' ');
      const ok = examples.some(word => {
        const number = Number(word.slice(1));
        return word.startsWith(row.letter) && number >= row.number && number <= (row.through ?? row.number);
      });
      assert.ok(ok, `${codeName(row)}: ${row.example}`);
    }
  });

  const meanings: [string, (typeof DIALECTS)[number], 'mill' | 'lathe', string | undefined][] = [
    ['G90', 'lathe-a', 'lathe', 'turning-cycle'],
    ['G77', 'lathe-b', 'lathe', 'turning-cycle'],
    ['G20', 'lathe-c', 'lathe', 'turning-cycle'],
    ['G20', 'iso6983', 'mill', 'inch'],
    ['G70', 'lathe-c', 'lathe', 'inch'],
    ['G70', 'lathe-a', 'lathe', 'finishing'],
    ['G72', 'lathe-c', 'lathe', 'finishing'],
    ['G78', 'lathe-b', 'lathe', 'thread-cycle'],
    ['G78', 'lathe-c', 'lathe', 'multi-pass-thread'],
    ['G76', 'ngc', 'lathe', 'multi-pass-thread'],
    ['G76', 'iso6983', 'mill', 'drill-cycle'],
    ['G98', 'lathe-a', 'lathe', 'feed-per-minute'],
    ['G98', 'lathe-b', 'lathe', 'return-initial'],
    ['G94', 'lathe-a', 'lathe', 'facing-cycle'],
    ['G92', 'lathe-a', 'lathe', 'thread-cycle'],
    ['G92', 'ngc', 'mill', 'set-position'],
    ['G32', 'ngc', 'mill', undefined],
    ['G43.1', 'ngc', 'mill', 'length-offset-words'],
    ['M45', 'iso6983', 'mill', 'accepted'],
    ['M5000', 'iso6983', 'mill', 'not-followed'],
    ['M5000', 'ngc', 'mill', undefined],
    ['G113', 'lathe-a', 'lathe', 'accepted'],
    ['G114', 'lathe-a', 'lathe', 'not-followed'],
    ['G1.05', 'ngc', 'mill', undefined],
    ['G-1', 'ngc', 'mill', undefined],
    ['G999999', 'iso6983', 'mill', undefined],
  ];
  for (const [name, dialect, kind, effect] of meanings) {
    it(`reads ${name} in ${dialect} on a ${kind} as ${effect ?? 'unknown'}`, () => {
      assert.equal(
        codeFor(name.startsWith('G') ? 'G' : 'M', Number(name.slice(1)), dialect, kind)?.effect,
        effect,
      );
    });
  }

  it('takes a number within 0.0001 of a code as that code', () => {
    assert.equal(codeFor('G', 2.00009, 'ngc', 'mill')?.means, 'arc clockwise');
    assert.equal(codeFor('G', 2.001, 'ngc', 'mill'), undefined);
  });

  it('serves hot paths from an index of rows', () => {
    const at = codeIndex('G', 'ngc', 'mill')[811] ?? 0;
    assert.equal(at, -1);
    assert.equal(CODES[codeIndex('G', 'ngc', 'mill')[810] ?? 0]?.means, 'drill');
  });

  it('lists every meaning of a code', () => {
    assert.deepEqual(
      meaningsOf('G', 90).map(row => row.means),
      ['absolute', 'turning cycle'],
    );
  });

  it('makes the manual page with one line a row', () => {
    const lines = codesManual().split('\n');
    assert.equal(lines.filter(line => /^\| [GM]\d.* \| .* \| .* \| .* \|/.test(line)).length, CODES.length);
  });
});
