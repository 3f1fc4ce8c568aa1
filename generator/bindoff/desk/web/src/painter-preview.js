// The grid as it looks from afar: one dot a cell, side by side as often as it is repeated, in the
// proportions of the knitting.
import { element } from './dom.js'
import { groundOf } from './painter-cells.js'

const HIGH = 76 // px
const BESIDE = 12 // px at each side
const DOT = 3 // px of a cell at least, where the repeat is shown above itself

export class Preview {
  constructor() {
    this.canvas = element('canvas', { role: 'img', class: 'preview' })
    this.box = element('div', { class: 'far' }, this.canvas)
    this.dots = document.createElement('canvas') // one pixel a cell
    new ResizeObserver(() => this.draw()).observe(this.box)
  }

  // `parts` are those of the grid; `again` says whether its repeats are repeated.
  show(model) {
    this.model = model
    if (this.waiting) return
    this.waiting = requestAnimationFrame(() => {
      this.waiting = 0
      this.draw()
    })
  }

  draw() {
    const { canvas, model, box, dots } = this
    const room = box.clientWidth - 2 * BESIDE
    if (!model || canvas.hidden || room < BESIDE) return
    const { rows, parts, again, ratio } = model
    const [width, height, sharp] = [rows[0].length, rows.length, devicePixelRatio || 1]
    const up = again ? Math.max(1, Math.min(3, Math.floor(HIGH / DOT / height))) : 1
    const exact = HIGH / (height * up)
    const cell = exact >= 1 ? Math.floor(exact) : exact
    const repeat = parts.filter(each => each.repeat).reduce((sum, { from, to }) => sum + to - from, 0)
    const across = again ? Math.max(1, Math.floor((room / (cell * ratio) - width + repeat) / repeat)) : 1
    const wide = Math.min(cell * ratio, room / (width + repeat * (across - 1)))
    this.drawDots()
    const [full, high] = [(width + repeat * (across - 1)) * wide, height * up * cell]
    canvas.width = Math.round(full * sharp)
    canvas.height = Math.round(high * sharp)
    canvas.style.width = `${full}px`
    canvas.style.height = `${high}px`
    const context = canvas.getContext('2d', { alpha: false })
    context.scale(sharp, sharp)
    context.imageSmoothingEnabled = cell < 1
    for (let turn = 0; turn < up; turn++) {
      let at = 0
      for (const { from, to, repeat: again } of parts) {
        for (let time = 0; time < (again ? across : 1); time++) {
          context.drawImage(dots, from, 0, to - from, height, at * wide, turn * height * cell, (to - from) * wide, height * cell)
          at += to - from
        }
      }
    }
    const times = [across > 1 ? `${across} times side by side` : '', up > 1 ? `${up} times above one another` : ''].filter(Boolean).join(' and ')
    canvas.setAttribute('aria-label', `The grid as it looks from afar${times ? `, ${times}` : ''}`)
  }

  drawDots() {
    const { dots, model: { rows, legend, paper } } = this
    dots.width = rows[0].length
    dots.height = rows.length
    const context = dots.getContext('2d')
    const image = context.createImageData(dots.width, dots.height)
    const pixels = new DataView(image.data.buffer)
    const colours = new Map()
    const colour = sign => {
      if (!colours.has(sign)) colours.set(sign, parseInt(`${groundOf(legend.get(sign), paper).slice(1)}ff`, 16))
      return colours.get(sign)
    }
    let at = 0
    for (const row of rows) {
      for (const sign of row) {
        pixels.setUint32(at, colour(sign))
        at += 4
      }
    }
    context.putImageData(image, 0, 0)
  }
}
