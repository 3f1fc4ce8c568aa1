// A chart grid as cells, and cells as the text of its file. Nothing here knows of the page.
//
// `rows[0]` is the top line of the file, `rows[r][0]` its left-most cell. People count stitches from
// the right and rounds from below; files count lines from the top and columns from the left.

// `sides` are the columns before which a repeat begins or ends: two, or four of a grid with two
// repeats, none where all of it is repeated. `marked` says that the file has a mark at each.

const MARK = '|'

// The cells of a grid file; a sentence in `fault` where it is no rectangle.
export function readGrid(text, signs) {
  const lines = text.split('\n')
  const filled = lines.flatMap((line, at) => (line ? [at] : []))
  if (!filled.length) return { fault: 'The grid is empty.', lines }
  const top = filled[0]
  const drawn = lines.slice(top, filled.at(-1) + 1).map(line => [...line])
  const marks = signs.has(MARK) ? [] : marksOf(drawn)
  const rows = marks.length ? drawn.map(line => line.filter((_, at) => !marks.includes(at))) : drawn
  const sides = marks.map((mark, before) => mark - before)
  const width = rows[0].length
  const odd = rows.findIndex(row => row.length !== width)
  if (odd >= 0) {
    return { fault: `Line ${top + odd + 1} of the file has ${rows[odd].length} cells where line ${top + 1} has ${width}. Mend it in the text.`, lines }
  }
  return {
    lines, top, rows, width, height: rows.length, marked: marks.length > 0, sides,
  }
}

function marksOf(drawn) {
  const places = line => line.flatMap((sign, at) => (sign === MARK ? [at] : []))
  const first = places(drawn[0])
  const same = line => String(places(line)) === String(first)
  return (first.length === 2 || first.length === 4) && drawn.every(same) ? first : []
}

// A row of cells as a line of the file, with the marks where the grid has them.
export function lineOf(row, { marked, sides }) {
  if (!marked) return row.join('')
  const ends = [0, ...sides, row.length]
  return ends.slice(1).map((end, at) => row.slice(ends[at], end).join('')).join(MARK)
}

// The parts of a grid from the left: `repeat` says which are repeated.
export function partsOf({ sides, width }) {
  if (!sides.length) return [{ from: 0, to: width, repeat: true }]
  const ends = [0, ...sides, width]
  return ends.slice(1).map((to, at) => ({ from: ends[at], to, repeat: at % 2 === 1 })).filter(({ from, to }) => to > from)
}

// What to change in the file so that it has these rows: only lines, and parts of lines, that differ.
export function changesFor(grid, next) {
  const old = grid.lines.slice(grid.top, grid.top + grid.height)
  const fresh = next.rows.map(row => lineOf(row, next))
  const starts = [0]
  for (const line of grid.lines) starts.push(starts.at(-1) + line.length + 1)
  const start = at => starts[grid.top + at]
  let head = 0
  while (head < Math.min(old.length, fresh.length) && old[head] === fresh[head]) head++
  let foot = 0
  while (foot < Math.min(old.length, fresh.length) - head && old.at(-1 - foot) === fresh.at(-1 - foot)) foot++
  if (old.length === fresh.length) {
    return old.flatMap((line, at) => (line === fresh[at] ? [] : [part(line, fresh[at], start(at))]))
  }
  const [gone, come] = [old.slice(head, old.length - foot), fresh.slice(head, fresh.length - foot)]
  if (!gone.length) {
    return head < old.length
      ? [{ from: start(head), insert: come.map(line => `${line}\n`).join('') }]
      : [{ from: start(head) - 1, insert: come.map(line => `\n${line}`).join('') }]
  }
  const end = start(old.length - foot)
  if (!come.length) return foot ? [{ from: start(head), to: end }] : [{ from: start(head) - 1, to: end - 1 }]
  return [{ from: start(head), to: end - 1, insert: come.join('\n') }]
}

function part(line, fresh, start) {
  const most = Math.min(line.length, fresh.length)
  let head = 0
  while (head < most && line[head] === fresh[head]) head++
  let foot = 0
  while (foot < most - head && line.at(-1 - foot) === fresh.at(-1 - foot)) foot++
  // Never between the two halves of one character.
  if (head && /[\uD800-\uDBFF]/.test(line[head - 1])) head--
  if (foot && /[\uDC00-\uDFFF]/.test(line[line.length - foot])) foot--
  return { from: start + head, to: start + line.length - foot, insert: fresh.slice(head, fresh.length - foot) }
}

// ---------------------------------------------------------------- places

// The line and column in the file, both from 1, of a cell.
export function placeOf(grid, { r, c }) {
  const past = grid.marked ? grid.sides.filter(side => c >= side).length : 0
  return [grid.top + r + 1, c + past + 1]
}

// The cell at a line and column of the file, or the nearest one.
export function cellAt(grid, [line, column]) {
  const at = column - 1
  const past = grid.marked ? grid.sides.filter((side, before) => at > side + before).length : 0
  return inside(grid, { r: line - 1 - grid.top, c: at - past })
}

export function inside({ width, height }, { r, c }) {
  return { r: Math.min(Math.max(r, 0), height - 1), c: Math.min(Math.max(c, 0), width - 1) }
}

// Two corners as a box: top and left cell, and the first beyond it.
export function boxOf(one, other) {
  return {
    top: Math.min(one.r, other.r), left: Math.min(one.c, other.c),
    bottom: Math.max(one.r, other.r) + 1, right: Math.max(one.c, other.c) + 1,
  }
}

export const holds = (box, { r, c }) => box && r >= box.top && r < box.bottom && c >= box.left && c < box.right

// Every cell from one to another, so that a quick stroke has no gaps (Bresenham's line).
export function* between(one, other) {
  let { r, c } = one
  const [down, across] = [Math.abs(other.r - r), Math.abs(other.c - c)]
  const [stepDown, stepAcross] = [Math.sign(other.r - r), Math.sign(other.c - c)]
  let slack = across - down
  yield { r, c }
  while (r !== other.r || c !== other.c) {
    const twice = 2 * slack
    if (twice > -down) { slack -= down; c += stepAcross }
    if (twice < across) { slack += across; r += stepDown }
    yield { r, c }
  }
}

// The cells that hang together with one and have its sign, without corners.
export function areaOf(rows, start) {
  const sign = rows[start.r][start.c]
  const seen = new Set()
  const waiting = [start]
  const width = rows[0].length
  const found = []
  while (waiting.length) {
    const { r, c } = waiting.pop()
    if (rows[r]?.[c] !== sign || seen.has(r * width + c)) continue
    seen.add(r * width + c)
    found.push({ r, c })
    waiting.push({ r: r - 1, c }, { r: r + 1, c }, { r, c: c - 1 }, { r, c: c + 1 })
  }
  return found
}

// ---------------------------------------------------------------- blocks of cells

export const cut = (rows, { top, left, bottom, right }) => rows.slice(top, bottom).map(row => row.slice(left, right))

// `rows` with a block laid on it; what hangs over is left out.
export function laid(rows, block, { r, c }) {
  const next = rows.slice()
  block.forEach((line, down) => {
    if (!next[r + down]) return
    const row = next[r + down].slice()
    line.forEach((sign, across) => { if (row[c + across] !== undefined) row[c + across] = sign })
    next[r + down] = row
  })
  return next
}

export const filled = ({ top, left, bottom, right }, sign) =>
  Array.from({ length: bottom - top }, () => Array(right - left).fill(sign))

// Left for right: a stitch that leans becomes the one that leans the other way, by `partner`.
export const mirrored = (block, partner) => block.map(line => line.map(sign => partner.get(sign) ?? sign).reverse())
export const upended = block => block.slice().reverse()
export const turned = block => block[0].map((_, c) => block.map(line => line[c]).reverse())

// ---------------------------------------------------------------- rounds and stitches

export function withRows(grid, at, count, sign) {
  const fresh = Array.from({ length: count }, () => Array(grid.width).fill(sign))
  return { ...grid, rows: [...grid.rows.slice(0, at), ...fresh, ...grid.rows.slice(at)] }
}

export function withoutRows(grid, from, to) {
  return { ...grid, rows: [...grid.rows.slice(0, from), ...grid.rows.slice(to)] }
}

// `count` stitches before column `at`, in the part of the grid (an edge or the repeat) of `near`.
export function withColumns(grid, at, count, near, sign) {
  const fresh = Array(count).fill(sign)
  return {
    ...grid,
    rows: grid.rows.map(row => [...row.slice(0, at), ...fresh, ...row.slice(at)]),
    sides: grid.sides.map(side => (side > near ? side + count : side)),
  }
}

export function withoutColumns(grid, from, to) {
  return {
    ...grid,
    rows: grid.rows.map(row => [...row.slice(0, from), ...row.slice(to)]),
    sides: grid.sides.map(side => side - Math.min(Math.max(side - from, 0), to - from)),
  }
}

// Whether a grid has cells, and its repeats too.
export function isWhole({ rows, sides }) {
  if (!rows.length || !rows[0].length) return false
  return sides.every((side, at) => at % 2 === 0 || side > sides[at - 1]) && (sides.at(-1) ?? 0) <= rows[0].length
}

export function commonest(rows) {
  const counts = new Map()
  for (const row of rows) for (const sign of row) counts.set(sign, (counts.get(sign) ?? 0) + 1)
  return [...counts].sort(([, one], [, other]) => other - one)[0][0]
}
