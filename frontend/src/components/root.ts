// Our own drawing of a root system, computed from the percentage of it that is galled: nobody's chart.
// The root is cut into short pieces; as many of its pieces are drawn swollen as the percentage says.

export interface RootPiece {
  from: [number, number];
  to: [number, number];
  /** 0 taproot, 1 side root, 2 fine root */
  order: 0 | 1 | 2;
  galled: boolean;
}

type Bare = Omit<RootPiece, "galled">;

/** A root of `n` pieces that starts at (x, y), heads off at `angle` and bends by `bend` at each joint. */
function grow(x: number, y: number, angle: number, step: number, n: number, bend: number, order: 0 | 1 | 2): Bare[] {
  const pieces: Bare[] = [];
  for (let i = 0; i < n; i++) {
    const turn = angle + bend * i + Math.sin((x + y + i) * 1.7) * 0.16;
    const to: [number, number] = [x + Math.cos(turn) * step, y + Math.sin(turn) * step];
    pieces.push({ from: [x, y], to, order });
    [x, y] = to;
  }
  return pieces;
}

function wholeRoot(): Bare[] {
  const tap = grow(32, 1, Math.PI / 2, 4.8, 10, 0.01, 0);
  const pieces = [...tap];
  tap.slice(0, 7).forEach((joint, i) => {
    const side = i % 2 === 0 ? 1 : -1;
    const angle = Math.PI / 2 - side * (1.42 - i * 0.09);
    const lateral = grow(...joint.to, angle, 5 - i * 0.15, 6 - Math.floor(i / 2), side * 0.17, 1);
    pieces.push(...lateral);
    lateral.forEach((knee, j) => {
      const off = angle + (j % 2 === 0 ? 0.75 : -0.7) * side;
      pieces.push(...grow(...knee.to, off, 2.9, 2, side * 0.2, 2));
    });
  });
  return pieces;
}

const pieces = wholeRoot();

/* Which piece swells first: scattered by the golden ratio, fine roots before side roots before the taproot. */
const lean = [0.3, 0, -0.12];
const firstToSwell = pieces
  .map((piece, i) => ({ i, when: ((i * 0.618034) % 1) + (lean[piece.order] ?? 0) }))
  .sort((a, b) => a.when - b.when)
  .map(({ i }) => i);

/** The root's pieces with `percent` [%, 0..100] of them galled; never none for more than 0 %. */
export function rootPieces(percent: number): RootPiece[] {
  const n = percent > 0 ? Math.max(1, Math.round((pieces.length * Math.min(100, percent)) / 100)) : 0;
  const galled = new Set(firstToSwell.slice(0, n));
  return pieces.map((piece, i) => ({ ...piece, galled: galled.has(i) }));
}

const spot = ([x, y]: [number, number]) => `${x.toFixed(1)} ${y.toFixed(1)}`;

/** SVG path data: thin lines for sound roots by order, and the swollen parts of each order. */
export function rootPaths(percent: number): { lines: string[]; galls: string[] } {
  const lines = ["", "", ""];
  const galls = ["", "", ""];
  for (const { from, to, order, galled } of rootPieces(percent)) {
    lines[order] += `M${spot(from)}L${spot(to)}`;
    if (!galled) continue;
    const inner = (t: number): [number, number] => [from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t];
    galls[order] += `M${spot(inner(0.35))}L${spot(inner(0.65))}`;
  }
  return { lines, galls };
}
