// The grid as its pictures look side by side: one dot a cell, repeated, in true proportions.
import { element } from './dom.js'
import { groundOf } from './painter-cells.js'

const HIGH = 76 // px
const BESIDE = 12 // px at each side
const DOT = 3 // px of a cell at least, where the repeat is shown above itself

export class Preview {
  constructor() {
    this.canvas = element('canvas', { role: 'img', class: 'preview' })
    this.box = element('div', { class: 'far' }, this.canvas)
    new ResizeObserver(() => this.draw()).observe(this.box)
  }

  // `sides` are the first column of the repeat and the one beyond it; `again` whether it is repeated.
  show(model) {
    this.model = model
    if (this.waiting) return
    this.waiting = requestAnimationFrame(() => {
      this.waiting = 0
      this.draw()
    })
  }

  draw() {
    const { canvas, model, box } = this
    const room = box.clientWidth - 2 * BESIDE
    if (!model || canvas.hidden || room < BESIDE) return
    const { rows, legend, sides, again, ratio, paper } = model
    const [dots, height] = [devicePixelRatio || 1, rows.length]
    const repeat = sides.last - sides.first
    const up = again ? Math.max(1, Math.min(3, Math.floor(HIGH / DOT / height))) : 1
    const cell = Math.max(Math.floor((HIGH * dots) / (height * up)), 1)
    const wide = Math.max(1, Math.round(cell * ratio))
    const most = Math.floor((room * dots) / wide)
    const across = again ? Math.max(1, Math.floor((most - sides.first - (rows[0].length - sides.last)) / repeat)) : 1
    const columns = rows[0].length + repeat * (across - 1)
    const [full, high] = [columns * wide, height * up * cell]
    canvas.width = full
    canvas.height = high
    canvas.style.width = `${Math.min(full / dots, room)}px`
    const context = canvas.getContext('2d', { alpha: false })
    const grounds = new Map()
    rows.forEach((row, r) => {
      const line = [...row.slice(0, sides.first), ...Array.from({ length: across }, () => row.slice(sides.first, sides.last)).flat(), ...row.slice(sides.last)]
      for (let c = 0; c < line.length;) {
        if (!grounds.has(line[c])) grounds.set(line[c], groundOf(legend.get(line[c]), paper))
        let end = c + 1
        while (line[end] === line[c]) end++
        context.fillStyle = grounds.get(line[c])
        for (let turn = 0; turn < up; turn++) context.fillRect(c * wide, (r + turn * height) * cell, (end - c) * wide, cell)
        c = end
      }
    })
    const times = [across > 1 ? `${across} times side by side` : '', up > 1 ? `${up} times above one another` : ''].filter(Boolean).join(' and ')
    canvas.setAttribute('aria-label', `The grid as it looks from afar${times ? `, ${times}` : ''}`)
  }
}
