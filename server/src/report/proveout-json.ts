import type { ProveoutSheet, ProveoutTool } from '../proveout/sheet.ts';
import type { Review } from '../review/review.ts';
import {
  gaugeRows,
  NOT_SEEN,
  offsetRows,
  soundWords,
  squealWords,
  toolName,
  watchWords,
} from './proveout-words.ts';
import { CAUTION } from './words.ts';

type Json = Record<string, unknown>;

/** The prove-out sheet as JSON: lines from 1, positions in mm in the active work offset, lathe X as radius. */
export function proveoutJson(review: Review, sheet: ProveoutSheet): Json {
  return {
    tools: sheet.tools.filter(({ used }) => used.number >= 0).map(tool => toolJson(review, tool)),
    offsets: offsetRows(review, sheet),
    stops: sheet.stops.map(({ line, code, why, tool }) => ({
      line: line + 1,
      code,
      ...(why === '' ? {} : { why }),
      ...(tool === undefined ? {} : { tool }),
    })),
    gauges: gaugeRows(sheet, review.program.shown),
    restart: sheet.restarts.map(({ tool, line, first_cut_line, restore, stated }) => ({
      ...(tool >= 0 ? { tool } : {}),
      line: line + 1,
      first_cut_line: first_cut_line + 1,
      restore,
      stated,
    })),
    not_seen: NOT_SEEN,
    not_checked: review.not_checked,
    caution: CAUTION,
  };
}

function toolJson(review: Review, tool: ProveoutTool): Json {
  const { used, contact, touch } = tool;
  const { shown } = review.program;
  return {
    number: used.number,
    name: toolName(tool),
    ...(contact.percent === undefined
      ? { why_not: contact.why_not }
      : { first_contact_percent: contact.percent }),
    reasons: contact.terms.map(({ percent, why }) => ({ percent, why })),
    sentence: contact.sentence,
    not_counted: contact.not_counted,
    ...(touch
      ? {
          first_contact: {
            line: touch.line + 1,
            ...(touch.position_mm ? { position_mm: touch.position_mm } : {}),
            ...(touch.frame ? { frame: touch.frame } : {}),
            by: touch.by,
          },
        }
      : {}),
    steps_percent: contact.steps_percent,
    listen: soundWords(tool, shown),
    if_not: squealWords(tool, shown),
    watch: tool.watch.map(watch => ({
      line: watch.line + 1,
      why: watchWords(watch, shown).replace(/^line \d+: /, ''),
    })),
  };
}
