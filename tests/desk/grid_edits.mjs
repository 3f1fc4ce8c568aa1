// Every edit of a grid, at random: what it changes in the text makes exactly the text that is wanted,
// and nothing else of it is touched. Run by test_grid_edits.py; prints how many were tried.
import { pathToFileURL } from 'node:url'

const grids = await import(pathToFileURL(process.argv[2]))
const { cellAt, changesFor, isWhole, laid, lineOf, placeOf, readGrid, withColumns, withRows, withoutColumns, withoutRows } = grids

let seed = 1
const random = below => { // Park and Miller's minimal standard generator
  seed = (seed * 48271) % 2147483647
  return seed % below
}
const applied = (text, changes) => changes.slice().reverse().reduce(
  (now, { from, to = from, insert = '' }) => now.slice(0, from) + insert + now.slice(to), text)
const held = (told, ...seen) => {
  if (told) return
  console.error(JSON.stringify(seen))
  process.exit(1)
}

const texts = ['ab\ncd\nef\n', '\n\nab|cd|e\nfg|hi|j\n\n', 'a', 'x😀y\nz😀w', 'a|b|c|de|f\ng|h|i|jk|l', '|ab|\n|cd|']
let tried = 0
for (const text of texts) {
  const grid = readGrid(text, new Set(['a']))
  for (let turn = 0; turn < 400; turn++) {
    const [r, c] = [random(grid.height), random(grid.width)]
    const next = [
      () => withRows(grid, r + random(2), 1 + random(3), 'q'),
      () => withoutRows(grid, r, r + 1),
      () => withColumns(grid, c + random(2), 1 + random(3), c, 'q'),
      () => withoutColumns(grid, c, c + 1),
      () => ({ ...grid, rows: laid(grid.rows, [['😀', 'q'], ['q', 'a']], { r: r - 1, c }) }),
    ][turn % 5]()
    const place = placeOf(grid, { r, c })
    const back = cellAt(grid, place)
    held(back.r === r && back.c === c, 'place', text, place, back)
    held([...grid.lines[place[0] - 1]][place[1] - 1] === grid.rows[r][c], 'sign', text, place)
    if (!isWhole(next)) continue
    const lines = grid.lines.slice()
    lines.splice(grid.top, grid.height, ...next.rows.map(row => lineOf(row, next)))
    const changes = changesFor(grid, next)
    held(applied(text, changes) === lines.join('\n'), 'text', text, next, changes)
    const read = readGrid(lines.join('\n'), new Set(['a']))
    held(String(read.rows) === String(next.rows) && String(read.sides) === String(next.sides), 'read', next, read)
    for (const { from, to = from, insert = '' } of changes) {
      held(text.slice(from, to) !== insert, 'idle', text, changes)
    }
    tried++
  }
}
console.log(tried)
