// From a place on a page to a cell of a chart and back, by arithmetic: the server says only where the
// cells of each chart begin and how large they are.

// The cell at a point of a page, as a region of its own; nothing beside the charts.
export function cellThere(charts, page, x, y) {
  for (const chart of charts) {
    const { left, top, w, h, columns, rows, line, stitch, repeat } = chart
    const [c, r] = [Math.floor((x - left) / w), Math.floor((y - top) / h)]
    if (chart.page !== page || c < 0 || r < 0 || c >= columns || r >= rows) continue
    const cell = { line: line + rows - 1 - r, stitch: ((stitch + columns - 2 - c) % repeat) + 1 }
    return regionOf(chart, cell, r, c)
  }
  return null
}

// Every place where pages show a cell of a grid, once for each chart: not the faint repeats.
export function cellsShown(charts, file, cell) {
  return charts.flatMap(chart => {
    const r = chart.line + chart.rows - 1 - cell.line
    const c = chart.stitch + chart.columns - 1 - cell.stitch
    const seen = chart.file === file && r >= 0 && r < chart.rows && c >= 0 && c < chart.columns
    return seen ? [regionOf(chart, cell, r, c)] : []
  })
}

// The cell of its grid under a point of a motif.
export function cellUnder({ box: [left, top], motif }, x, y) {
  const high = Math.round((motif.box[3] - motif.box[1]) / motif.h)
  const c = Math.min(Math.max(Math.floor((x - left) / motif.w), 0), motif.drawn.length - 1)
  const r = Math.min(Math.max(Math.floor((y - top) / motif.h), 0), high - 1)
  return { line: high - r, stitch: motif.drawn[c] }
}

// Every place where motifs on a map show a cell of their grid.
export function cellsOfMotifs(regions, file, cell) {
  return regions.filter(each => each.motif?.grid === file).flatMap(({ page, box: [left, top], motif }) => {
    const high = Math.round((motif.box[3] - motif.box[1]) / motif.h)
    const place = { page, file, left, top, w: motif.w, h: motif.h }
    return motif.drawn.flatMap((stitch, c) =>
      stitch === cell.stitch && cell.line <= high ? [regionOf(place, cell, high - cell.line, c)] : [])
  })
}

function regionOf({ page, file, left, top, w, h }, cell, r, c) {
  const [x, y] = [left + c * w, top + r * h]
  return { page, file, cell, box: [x, y, x + w, y + h], from: [1, 1], to: [1, 1] }
}

// The regions of a page with each chart and motif among them, so that a walk over the page comes by it.
export function withCharts(regions, charts, motifs) {
  const found = regions.slice()
  const more = [
    ...charts.map(chart => {
      const { file, left, top, w, h, columns, rows, line, stitch } = chart
      return { ...regionOf(chart, { line, stitch }, 0, 0), box: [left, top, left + columns * w, top + rows * h], name: `chart of ${file}` }
    }),
    ...motifs.map(motif => {
      const { page, file, box, from, to, title, place } = motif
      return { page, file, box, from, to, motif, name: `motif ${title}, ${place}` }
    }),
  ]
  for (const region of more) {
    const { page, box: [, top] } = region
    const at = found.findIndex(each => each.page > page || (each.page === page && each.box[1] > top))
    found.splice(at < 0 ? found.length : at, 0, region)
  }
  return found
}
