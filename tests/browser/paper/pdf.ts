// A printed page as the printer would get it: a PDF, looked at with poppler's tools.

import { execFileSync } from 'node:child_process';
import { decodeQR } from 'qr/decode.js';
import { findPdfInfo, findPdfToPpm, findPdfToText, wanted } from '../../../scripts/ensure.mjs';

/** Fine enough to see 0.2 mm: a pixel is 0.042 mm. */
const DPI = 600;
const PER_MM = DPI / 25.4;

export interface PdfInfo {
  readonly pages: number;
  /** Millimetres. */
  readonly width: number;
  readonly height: number;
}

export function pdfInfo(path: string): PdfInfo {
  const told = execFileSync(wanted(findPdfInfo(), 'pdfinfo'), [path], { encoding: 'utf8' });
  const pages = Number(/^Pages:\s+(\d+)/m.exec(told)?.[1]);
  const [, width, height] = /^Page size:\s+([\d.]+) x ([\d.]+) pts/m.exec(told) ?? [];
  const mm = (points: string | undefined) => (Number(points) / 72) * 25.4;
  return { pages, width: mm(width), height: mm(height) };
}

/** The words of all pages in the order they are read, line by line. */
export function pdfText(path: string): string {
  const args = ['-layout', '-enc', 'UTF-8', path, '-'];
  return execFileSync(wanted(findPdfToText(), 'pdftotext'), args, { encoding: 'utf8' });
}

export interface Area {
  /** Counted from 1. */
  readonly page: number;
  /** Millimetres from the upper left corner of the paper. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

interface Picture {
  readonly width: number;
  readonly height: number;
  /** A byte a pixel, or three. */
  readonly data: Uint8Array;
}

function rendered(path: string, area: Area, args: readonly string[], perMm: number): Picture {
  const px = (mm: number) => String(Math.round(mm * perMm));
  const box = ['-x', px(area.x), '-y', px(area.y), '-W', px(area.width), '-H', px(area.height)];
  const page = ['-f', String(area.page), '-l', String(area.page)];
  const file = execFileSync(
    wanted(findPdfToPpm(), 'pdftoppm'),
    [...args, '-r', String(perMm * 25.4), ...page, ...box, path],
    { maxBuffer: 200_000_000 },
  );
  const head = /^P[56]\s+(\d+)\s+(\d+)\s+255\s/.exec(file.subarray(0, 40).toString('latin1'));
  if (head === null) throw new Error('got no picture of the page');
  return {
    width: Number(head[1]),
    height: Number(head[2]),
    data: file.subarray(head[0].length),
  };
}

export interface Stroke {
  /** Middle of a dark stretch along the line looked at, millimetres from the edge of the paper. */
  readonly at: number;
  readonly thickness: number;
}

/** What is dark on a line down the page, a few pixels wide. */
export function strokesDown(path: string, page: number, x: number, from: number, to: number) {
  const area = { page, x: x - 0.1, y: from, width: 0.2, height: to - from };
  return strokesIn(rendered(path, area, ['-gray'], PER_MM), from, 'down');
}

/** What is dark on a line across the page. */
export function strokesAcross(path: string, page: number, y: number, from: number, to: number) {
  const area = { page, x: from, y: y - 0.1, width: to - from, height: 0.2 };
  return strokesIn(rendered(path, area, ['-gray'], PER_MM), from, 'across');
}

function strokesIn(
  { width, height, data }: Picture,
  from: number,
  along: 'down' | 'across',
): readonly Stroke[] {
  const [length, breadth] = along === 'down' ? [height, width] : [width, height];
  const isDark = (i: number) => {
    for (let j = 0; j < breadth; j++) {
      const at = along === 'down' ? i * width + j : j * width + i;
      if ((data[at] ?? 255) > 140) return false;
    }
    return true;
  };
  const strokes: Stroke[] = [];
  for (let i = 0; i < length; i++) {
    const first = i;
    while (i < length && isDark(i)) i++;
    if (i > first)
      strokes.push({ at: from + (first + i) / 2 / PER_MM, thickness: (i - first) / PER_MM });
  }
  return strokes;
}

/** Every colour on a page, `#rrggbb`, that covers more than a few pixels. */
export function coloursOf(path: string, page: number, paper: PdfInfo): ReadonlySet<string> {
  const area = { page, x: 0, y: 0, width: paper.width, height: paper.height };
  const { data } = rendered(path, area, ['-aa', 'no', '-aaVector', 'no'], 100 / 25.4);
  const counts = new Map<string, number>();
  for (let i = 0; i + 2 < data.length; i += 3) {
    const hex = [data[i], data[i + 1], data[i + 2]].map((it) =>
      (it ?? 0).toString(16).padStart(2, '0'),
    );
    const colour = `#${hex.join('')}`;
    counts.set(colour, (counts.get(colour) ?? 0) + 1);
  }
  return new Set([...counts].flatMap(([colour, count]) => (count > 20 ? [colour] : [])));
}

/** The text of the QR code on a page. Throws when there is none that can be read. */
export function codeOn(path: string, page: number, paper: PdfInfo): string {
  const area = { page, x: 0, y: 0, width: paper.width, height: paper.height };
  return decodeQR(rendered(path, area, [], 150 / 25.4));
}
