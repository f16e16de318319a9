import { programmedPoint } from '../coordinate-change.ts';
import type { SystemParameters } from '../expressions/parameters.ts';
import { turnByFrame } from '../frame-columns.ts';
import type { Machine } from '../machine.ts';
import { S, type StateField } from '../state.ts';
import { forgetStored, type StoredPoint, storedInMachine } from '../stored-reference.ts';

const shown = new Float64Array(3);
const AXES = ['x', 'y', 'z', 'a', 'b', 'c', 'u', 'v', 'w'] as const;
const OFFSETS: readonly StateField[] = [
  'o1x',
  'o1y',
  'o1z',
  'o2x',
  'o2y',
  'o2z',
  'o3x',
  'o3y',
  'o3z',
  'o4x',
  'o4y',
  'o4z',
  'o5x',
  'o5y',
  'o5z',
  'o6x',
  'o6y',
  'o6z',
  'o7x',
  'o7y',
  'o7z',
  'o8x',
  'o8y',
  'o8z',
  'o9x',
  'o9y',
  'o9z',
];

/** What a setting of a control parameter asks of the run, beside the value. */
export interface SystemEvents {
  /** `#3000=n`: the control stops with an alarm. */
  alarm(number: number): void;
  /** `#3006=1`: the control stops with a message. */
  stop(): void;
}

/**
 * The parameters of the control as far as the program tells them, read from the state of the machine. NISTIR 6556
 * section 3.2.1 and its successor for `ngc` (from memory); numbers of word-address controls are common practice, no source.
 */
export class MachineParameters implements SystemParameters {
  constructor(
    private readonly machine: Machine,
    private readonly events: SystemEvents,
  ) {}

  read(number: number): number | undefined {
    return this.machine.report ? this.readReport(number) : this.readMacro(number);
  }

  readName(name: string): number | undefined {
    if (!this.machine.report || !name.startsWith('_')) return undefined;
    const { v } = this.machine.state;
    const axis = AXES.findIndex(letter => name === `_${letter}`);
    if (axis >= 0) return this.position(axis);
    switch (name) {
      case '_feed':
        return v[S.feed] / (v[S.feed_mode] === 93 ? 1 : this.machine.unit);
      case '_rpm':
        return v[S.css] === 1 ? Number.NaN : v[S.spindle];
      case '_metric':
        return v[S.inch] === 1 ? 0 : 1;
      case '_imperial':
        return v[S.inch];
      case '_absolute':
        return Number(v[S.distance] === 90);
      case '_incremental':
        return Number(v[S.distance] === 91);
      case '_current_tool':
        return v[S.tool];
      case '_selected_tool':
        return v[S.prepared_tool];
      case '_coord_system':
        return v[S.frame];
      case '_spindle_on':
        return Number(v[S.direction] !== 0);
      case '_spindle_cw':
        return Number(v[S.direction] === 1);
      case '_lathe_diameter_mode':
        return v[S.diameter];
      case '_lathe_radius_mode':
        return 1 - v[S.diameter];
      case '_ccomp':
        return v[S.compensation] * 10;
      case '_plane':
        return v[S.plane] * 10;
      case '_line':
        return this.machine.line + 1;
      case '_task':
      case '_vmajor':
      case '_vminor':
      case '_call_level':
      case '_remap_level':
        return Number.NaN;
      default:
        return /^_(ini|hal)\[/.test(name) ? Number.NaN : undefined;
    }
  }

  write(number: number, value: number): void {
    if (this.machine.report) {
      if (number >= 5221 && number <= 5390) this.writeOffset(number - 5221, value);
      return;
    }
    if (number === 3000) this.events.alarm(value);
    else if (number === 3006) this.events.stop();
    else if (number >= 5221 && number <= 5330) this.writeOffset(number - 5221, value);
  }

  private readReport(number: number): number | undefined {
    const { v } = this.machine.state;
    if (number >= 5420 && number <= 5428) return this.position(number - 5420);
    if (number === 5220) return Number.isNaN(v[S.frame]) ? 1 : offsetNumber(v[S.frame]);
    if (number >= 5221 && number <= 5390) return this.readOffset(number - 5221);
    if (number === 5400) return v[S.tool];
    if (number === 5410) return this.toolDiameter();
    if (number >= 5161 && number <= 5163) return this.stored('first', number - 5161);
    if (number >= 5181 && number <= 5183) return this.stored('second', number - 5181);
    if (number >= 5211 && number <= 5213)
      return (v[S.set_x + number - 5211] || v[S.kept_x + number - 5211]) / this.machine.unit;
    if (number === 5210) return Number(v[S.set_x] !== 0 || v[S.set_y] !== 0 || v[S.set_z] !== 0);
    return undefined;
  }

  private readMacro(number: number): number | undefined {
    const { v } = this.machine.state;
    if (number >= 5001 && number <= 5006) return this.position(number - 5001);
    if (number >= 5041 && number <= 5046) return this.position(number - 5041);
    if (number >= 5221 && number <= 5330) return this.readOffset(number - 5221);
    switch (number) {
      case 4001:
        return v[S.motion] / 10;
      case 4002:
        return v[S.plane];
      case 4003:
        return v[S.distance];
      case 4005:
        return v[S.feed_mode];
      case 4006:
        return v[S.inch] === 1 ? 20 : 21;
      case 4007:
        return v[S.compensation];
      case 4014:
        return v[S.frame] / 10;
      case 4107:
        return v[S.radius_offset];
      case 4109:
        return v[S.feed] / (v[S.feed_mode] === 93 ? 1 : this.machine.unit);
      case 4111:
        return v[S.length_offset];
      case 4119:
        return v[S.spindle];
      case 4120:
        return v[S.tool];
      default:
        return undefined;
    }
  }

  /** End of the last block on an axis, in units of the program and in the coordinates it is written in. */
  private position(axis: number): number {
    const { machine } = this;
    const { v } = machine.state;
    let value = v[S.x + axis];
    if (axis < 3 && machine.report && v[S.turned] !== 0) {
      programmedPoint(machine, shown);
      value = shown[axis];
    }
    if (axis > 2) return axis > 5 ? value / machine.unit : value;
    const written = (value - v[S.local_x + axis] - v[S.set_x + axis]) / machine.unit;
    return axis === 0 && v[S.diameter] === 1 ? written * 2 : written;
  }

  /** What G28.1 or G30.1 stored on an axis, machine coordinates; undefined when the program does not tell. */
  private stored(point: StoredPoint, axis: number): number | undefined {
    const value = storedInMachine(this.machine, point, axis);
    return Number.isNaN(value) ? undefined : value / this.machine.unit;
  }

  private toolDiameter(): number {
    const { settings, state, unit } = this.machine;
    const written = 2 * (state.offsets?.get(state.v[S.tool]).radius_mm ?? Number.NaN);
    const known = settings.toolDiameter_mm?.(Number.NaN, state.v[S.tool]) ?? Number.NaN;
    return (Number.isNaN(written) ? known : written) / unit;
  }

  /** Work offset values: twenty numbers apart, X Y Z first. */
  private readOffset(from: number): number | undefined {
    const turn = turnField(from);
    if (turn >= 0) return this.machine.state.v[turn];
    const field = offsetField(from);
    return field === undefined ? undefined : this.machine.state.v[S[field]] / this.machine.unit;
  }

  private writeOffset(from: number, value: number): void {
    const turn = turnField(from);
    if (turn >= 0) {
      this.machine.state.v[turn] = value;
      turnByFrame(this.machine);
      return;
    }
    const field = offsetField(from);
    if (field === undefined) return;
    const { machine } = this;
    machine.state.v[S[field]] = value * machine.unit;
    const system = Math.floor(from / 20) + 1;
    forgetStored(machine.state.v, system <= 6 ? 530 + system * 10 : 584 + system);
    const frame = machine.state.v[S.frame];
    if (Number.isNaN(frame) || offsetNumber(frame) === Math.floor(from / 20) + 1) machine.lose();
  }
}

/** State column of the angle that a work offset is turned by (the tenth number of its twenty); -1 for others. */
function turnField(from: number): number {
  const system = Math.floor(from / 20);
  return from % 20 === 9 && system < 9 ? S.o1r + system : -1;
}

function offsetField(from: number): StateField | undefined {
  const system = Math.floor(from / 20);
  const axis = from % 20;
  return axis < 3 && system < 9 ? OFFSETS[system * 3 + axis] : undefined;
}

/** 540 is offset 1, 590 offset 6, 591 offset 7. */
function offsetNumber(frame: number): number {
  return frame <= 590 ? (frame - 530) / 10 : frame - 584;
}
