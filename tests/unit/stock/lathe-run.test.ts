/** A bar with its moves: edits at any time equal a fresh run, and a bar that goes on lies as it was told. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { laidBar, pieceLeft } from '../../../server/src/stock/bar-left.ts';
import { LatheStock } from '../../../server/src/stock/lathe.ts';
import { type LatheMove, latheMoveAt, pushLatheMove } from '../../../server/src/stock/lathe-moves.ts';
import type { BarStock } from '../../../server/src/stock/lathe-profile.ts';
import { LatheRun, type LatheTool } from '../../../server/src/stock/lathe-run.ts';
import { emptyMoves, type MoveColumns } from '../../../server/src/stock/moves.ts';
import { type TurningSpec, type TurningTool, turningTool } from '../../../server/src/stock/turning-tool.ts';

function outline(spec: TurningSpec): TurningTool {
  const made = turningTool(spec);
  if ('missing' in made) throw new Error(made.missing);
  return made;
}

const groove = { kind: 'groove', width_mm: 3 } as const;
const tools: LatheTool[] = [
  { outline: outline({ kind: 'turn', nose_radius_mm: 0.4, edge_angle_deg: 95, point_angle_deg: 55 }) },
  { outline: outline(groove), inside: outline({ ...groove, inside: true }) },
  { diameter_mm: 8, point_angle_deg: 118 },
  { outline: outline({ kind: 'bore-bar', nose_radius_mm: 0.4, edge_angle_deg: 95 }) },
];
const BAR: BarStock = { low_z_mm: -30, high_z_mm: 0, radius_mm: 20, bore_radius_mm: 5, slice_mm: 0.1 };

type ToolMove = LatheMove & { tool: number };

function columns(moves: readonly ToolMove[]): MoveColumns {
  const into = emptyMoves();
  for (const move of moves) pushLatheMove(into, move, move.tool, move.tool === 1);
  return into;
}

function fresh(moves: readonly ToolMove[]): LatheRun {
  const run = new LatheRun(BAR, tools);
  run.append(columns(moves));
  run.finish();
  return run;
}

function same(a: LatheRun, b: LatheRun, moves = a.moves.count): void {
  for (let move = 0; move < moves; move++) assert.deepEqual(a.at(move), b.at(move), `move ${move}`);
}

const point = fc.tuple(fc.integer({ min: -32, max: 4 }), fc.integer({ min: 0, max: 24 }));
const straight: fc.Arbitrary<ToolMove> = fc
  .record({
    kind: fc.constantFrom('feed' as const, 'rapid' as const),
    from: point,
    to: point,
    tool: fc.nat(3),
  })
  .map(move =>
    move.tool === 2 ? { ...move, from: [4, 0] as const, to: [Math.min(3, move.to[0]), 0] as const } : move,
  );
const arc: fc.Arbitrary<ToolMove> = fc
  .record({ centre: point, radius: fc.integer({ min: 1, max: 8 }), quarter: fc.nat(3), tool: fc.constant(0) })
  .map(({ centre: [z, x], radius, quarter, tool }) => {
    const at = (turn: number) =>
      [z + radius * Math.cos(turn), x + radius * Math.sin(turn)] as readonly [number, number];
    const start = (quarter * Math.PI) / 2;
    return {
      ...{ kind: 'arc' as const, from: at(start), to: at(start + Math.PI / 2), centre: [z, x] as const },
      sweep_rad: Math.PI / 2,
      tool,
    };
  });
const program = fc.array(fc.oneof(straight, straight, arc), { maxLength: 150 });

describe('lathe stock with its moves', () => {
  it('keeps moves in columns as they were', () => {
    const moves: LatheMove[] = [
      { kind: 'rapid', from: [1, 2], to: [3, 4] },
      { kind: 'arc', from: [1, 2], to: [3, 4], centre: [5, 6], sweep_rad: -1.5 },
      { kind: 'thread', from: [1, 2], to: [3, 4], lead_mm: 1.25 },
    ];
    const into = emptyMoves();
    for (const move of moves) pushLatheMove(into, move, 0, false);
    assert.deepEqual(
      moves.map((_, row) => latheMoveAt(into, row)),
      moves,
    );
  });

  it('edits that come before earlier ones are worked off equal a fresh run of the last list', () => {
    const edit = fc.record({
      inserted: fc.array(fc.oneof(straight, arc), { maxLength: 4 }),
      where: fc.nat(150),
      count: fc.nat(4),
      steps: fc.nat(60),
    });
    fc.assert(
      fc.property(program, fc.array(edit, { minLength: 1, maxLength: 4 }), (before, edits) => {
        const run = fresh(before);
        let list = before;
        for (const { inserted, where, count, steps } of edits) {
          const at = Math.min(where, list.length);
          const removed = Math.min(count, list.length - at);
          run.beginEdit(at, removed, columns(inserted));
          list = [...list.slice(0, at), ...inserted, ...list.slice(at + removed)];
          for (let k = 0; k < steps; k++) run.step();
          same(run, fresh(list), run.done);
        }
        run.finish();
        const right = fresh(list);
        assert.equal(run.done, list.length);
        same(run, right);
        assert.deepEqual(run.stock.profile(), right.stock.profile());
      }),
      { numRuns: 40, seed: 21 },
    );
  });

  it('starts again from a kept profile, not from the beginning', () => {
    const passes = Array.from(
      { length: 400 },
      (_, k): ToolMove => ({ kind: 'feed', from: [2, 20 - k / 40], to: [-25, 20 - k / 40], tool: 0 }),
    );
    const run = fresh(passes);
    run.beginEdit(399, 1, columns([]));
    assert.ok(run.done >= 256, `from move ${run.done} on`);
    run.finish();
    same(run, fresh(passes.slice(0, 399)));
  });

  it('cuts one straight piece a step', () => {
    const run = new LatheRun(BAR, tools);
    run.append(
      columns([
        {
          ...{ kind: 'arc', from: [0, 8], to: [-10, 18], centre: [-10, 8], tool: 0 },
          sweep_rad: Math.PI / 2,
        },
      ]),
    );
    let steps = 0;
    while (run.step()) steps++;
    // pieces of 2 acos(1 - 0.0005/10)
    assert.equal(steps, Math.ceil(Math.PI / 2 / (2 * Math.acos(1 - 0.0005 / 10))));
  });

  it('a piece turned round twice and put back where it was is itself', () => {
    fc.assert(
      fc.property(program, moves => {
        const { stock, bar } = fresh(moves);
        const piece = pieceLeft(stock, bar, true);
        if ('why' in piece) return;
        const there = laidBar(piece, true, 7.5);
        assert.equal(there.high_z_mm, 7.5);
        assert.deepEqual(laidBar(there, true, piece.high_z_mm).profile, piece.profile);
        assert.ok(Math.abs(new LatheStock(there).volume_mm3() - new LatheStock(piece).volume_mm3()) < 1e-6);
      }),
      { numRuns: 30, seed: 22 },
    );
  });
});
