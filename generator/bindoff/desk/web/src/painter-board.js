// The board that a grid is painted on: one canvas that shows what is in sight, and above it one row
// of real cells for the keyboard and for whoever hears the page. However large a grid, the page holds
// no more than a row of it.
import { element } from './dom.js'
import { drawMark, groundOf, inkOn, markFont, said } from './painter-cells.js'
import { holds, inside } from './painter-grid.js'

const SIDE = 40 // px for the numbers of rounds, at the right
const FOOT = 22 // px for the numbers of stitches, below
export const SIZES = [4, 6, 8, 12, 16, 20, 24, 30, 38, 48]
const AROUND = 4 // cells of the repeat that are shown again on every side
const LEAST_MARK = 11 // px of a cell that can hold its character

export class Board {
  // `chosen(cell, how)` is told of cells under the pointer: 'down', 'move', 'up' or 'cancel'.
  constructor(box, { chosen }) {
    this.chosen = chosen
    this.size = 24
    this.focus = { r: 0, c: 0 }
    this.long = new Map() // cells behind which a float is too long: r * width + c -> words
    this.canvas = element('canvas', { 'aria-hidden': 'true' })
    this.grid = element('div', { role: 'grid', class: 'cells' })
    this.extent = element('div', { class: 'extent' }, this.canvas, this.grid)
    this.scroller = element('div', { class: 'scroller' }, this.extent)
    box.append(this.scroller)
    this.context = this.canvas.getContext('2d', { alpha: false })
    this.pointers = new Map()
    this.listen()
  }

  listen() {
    this.scroller.addEventListener('scroll', () => this.draw(), { passive: true })
    new ResizeObserver(() => this.resized()).observe(this.scroller)
    for (const query of ['(prefers-color-scheme: dark)', '(forced-colors: active)']) {
      matchMedia(query).addEventListener('change', () => this.draw())
    }
    const { canvas } = this
    canvas.addEventListener('pointerdown', event => this.down(event))
    canvas.addEventListener('pointermove', event => this.move(event))
    for (const end of ['pointerup', 'pointercancel']) canvas.addEventListener(end, event => this.up(event, end))
    canvas.addEventListener('contextmenu', event => event.preventDefault())
  }

  // What is shown: `rows` of signs with their `legend`, in cells of the proportion `ratio`.
  show(model) {
    Object.assign(this, model)
    this.height = this.rows.length
    this.width = this.rows[0].length
    this.focus = inside(this, this.focus)
    this.measure()
    this.draw()
    this.voice()
  }

  measure() {
    const longer = Math.max(this.ratio, 1)
    this.w = Math.max(2, Math.round((this.size * this.ratio) / longer))
    this.h = Math.max(2, Math.round(this.size / longer))
    this.margin = this.around ? { x: Math.min(this.width, AROUND), y: Math.min(this.height, AROUND) } : { x: 0, y: 0 }
    const wide = (this.width + 2 * this.margin.x) * this.w + SIDE + 2
    const high = (this.height + 2 * this.margin.y) * this.h + FOOT + 2
    // A small grid stands in the middle.
    this.left = this.margin.x * this.w + 1 + Math.max(0, Math.floor((this.scroller.clientWidth - wide) / 2))
    this.top = this.margin.y * this.h + 1 + Math.max(0, Math.floor((this.scroller.clientHeight - high) / 2))
    this.extent.style.width = `${wide}px`
    this.extent.style.height = `${high}px`
  }

  zoom(step) {
    const at = Math.min(Math.max(SIZES.indexOf(this.size) + step, 0), SIZES.length - 1)
    this.size = SIZES[at]
    this.measure()
    this.reveal(this.focus)
    this.draw()
    this.voice()
    return at
  }

  // The largest size at which the whole grid is in sight.
  fit() {
    const { clientWidth, clientHeight } = this.scroller
    const longer = Math.max(this.ratio, 1)
    const fits = size => {
      const [w, h] = [Math.round((size * this.ratio) / longer), Math.round(size / longer)]
      return (this.width + 2 * this.margin.x) * w + SIDE + 2 <= clientWidth
        && (this.height + 2 * this.margin.y) * h + FOOT + 2 <= clientHeight
    }
    this.size = SIZES.filter(fits).at(-1) ?? SIZES[0]
    this.zoom(0)
  }

  resized() {
    if (!this.rows) return
    this.measure()
    this.place()
    this.draw()
  }

  // ------------------------------------------------------------ drawing

  draw() {
    if (this.waiting || !this.rows) return
    this.waiting = true
    requestAnimationFrame(() => {
      this.waiting = false
      this.paint()
    })
  }

  paint() {
    const { canvas, context, scroller } = this
    const [wide, high] = [scroller.clientWidth, scroller.clientHeight]
    if (!wide || !high) return
    const dots = devicePixelRatio || 1
    if (canvas.width !== Math.round(wide * dots) || canvas.height !== Math.round(high * dots)) {
      canvas.width = Math.round(wide * dots)
      canvas.height = Math.round(high * dots)
      canvas.style.width = `${wide}px`
      canvas.style.height = `${high}px`
    }
    context.setTransform(dots, 0, 0, dots, 0, 0)
    const style = getComputedStyle(scroller)
    const colour = name => style.getPropertyValue(name).trim()
    this.colours = {
      ground: colour('--ground'), paper: colour('--paint-paper'), ink: colour('--paint-ink'), soft: colour('--soft'),
      mark: colour('--mark-edge'), sheet: colour('--sheet'), error: colour('--error'), line: colour('--paint-line'),
    }
    this.x = this.left - scroller.scrollLeft
    this.y = this.top - scroller.scrollTop
    context.fillStyle = this.colours.ground
    context.fillRect(0, 0, wide, high)
    this.seen = this.inSight({ top: 0, left: 0, bottom: this.height, right: this.width }, 0, 0)
    if (this.picture) this.paintPicture()
    this.paintCells(this.rows, this.seen, 0, 0)
    this.paintAround()
    this.paintLines()
    this.paintFloats()
    this.paintBlock()
    this.paintNumbers(wide, high)
  }

  paintPicture() {
    const { context, picture: { image, left, top, wide, high } } = this
    context.fillStyle = this.colours.paper
    context.fillRect(this.x, this.y, this.width * this.w, this.height * this.h)
    context.save()
    context.beginPath()
    context.rect(this.x, this.y, this.width * this.w, this.height * this.h)
    context.clip()
    context.drawImage(image, this.x + left * this.w, this.y + top * this.h, wide * this.w, high * this.h)
    context.restore()
  }

  // The cells of `seen`, each colour of a row in one piece, drawn so many columns and rows further.
  paintCells(rows, part, across, down, alpha = 1) {
    const { context, w, h, legend, colours } = this
    const seen = this.inSight(part, across, down)
    const grounds = new Map()
    const ground = sign => {
      if (!grounds.has(sign)) grounds.set(sign, groundOf(legend.get(sign), colours.paper))
      return grounds.get(sign)
    }
    const marks = Math.min(w, h) >= LEAST_MARK
    const see = this.picture && alpha === 1 ? 1 - this.picture.strength : 1
    if (marks) {
      context.font = markFont(Math.min(w, h))
      context.textAlign = 'center'
      context.textBaseline = 'middle'
    }
    for (let r = seen.top; r < seen.bottom; r++) {
      const row = rows[r]
      const y = this.y + (r + down) * h
      for (let c = seen.left; c < seen.right;) {
        const colour = ground(row[c])
        let end = c + 1
        while (end < seen.right && (row[end] === row[c] || ground(row[end]) === colour)) end++
        context.globalAlpha = see * alpha
        context.fillStyle = colour
        context.fillRect(this.x + (c + across) * w, y, (end - c) * w, h)
        c = end
      }
      context.globalAlpha = alpha
      if (!marks) continue
      for (let c = seen.left; c < seen.right; c++) {
        const sign = row[c]
        const entry = legend.get(sign)
        const ink = entry?.colour || entry?.shade ? inkOn(ground(sign)) : colours.ink
        const piece = entry?.wide > 1 ? pieceOf(row, c, entry.wide) : 0
        drawMark(context, entry, sign, { x: this.x + (c + across) * w, y, w, h }, ink, this.symbols, piece)
      }
    }
    context.globalAlpha = 1
  }

  // What of a part of the cells is in sight when it is drawn so many columns and rows further.
  inSight({ top, left, bottom, right }, across, down) {
    const { x, y, w, h, scroller } = this
    return {
      top: Math.max(top, Math.floor(-y / h) - down),
      left: Math.max(left, Math.floor(-x / w) - across),
      bottom: Math.min(bottom, Math.ceil((scroller.clientHeight - y) / h) - down),
      right: Math.min(right, Math.ceil((scroller.clientWidth - x) / w) - across),
    }
  }

  // The repeat once more on every side, faint: so seams are seen while one paints.
  paintAround() {
    if (!this.around) return
    const { x, y } = this.margin
    const pale = (seen, right, down) => this.paintCells(this.rows, seen, right, down, 0.45)
    const whole = { top: 0, bottom: this.height, left: 0, right: this.width }
    const below = { ...whole, bottom: Math.min(y, this.height) }
    const above = { ...whole, top: this.height - y }
    for (const [rows, down] of [[whole, 0], [below, this.height], [above, -this.height]]) {
      if (down) pale(rows, 0, down)
      pale({ ...rows, left: this.width - x }, -this.width, down)
      pale({ ...rows, right: x }, this.width, down)
    }
  }

  paintLines() {
    const { context, w, h, seen, colours } = this
    const [left, right] = [this.x + seen.left * w, this.x + seen.right * w]
    const [top, bottom] = [this.y + seen.top * h, this.y + seen.bottom * h]
    const lines = (step, width, alpha) => {
      context.beginPath()
      for (let c = seen.left; c <= seen.right; c++) {
        if ((this.width - c) % step) continue
        context.moveTo(this.x + c * w, top)
        context.lineTo(this.x + c * w, bottom)
      }
      for (let r = seen.top; r <= seen.bottom; r++) {
        if ((this.height - r) % step) continue
        context.moveTo(left, this.y + r * h)
        context.lineTo(right, this.y + r * h)
      }
      context.globalAlpha = alpha
      context.lineWidth = width
      context.strokeStyle = colours.line
      context.stroke()
      context.globalAlpha = 1
    }
    if (Math.min(w, h) >= 6) lines(1, 1, 0.6)
    lines(5, 1.2, 0.8)
    lines(10, 2, 1)
    this.frame({ top: 0, left: 0, bottom: this.height, right: this.width }, colours.ink, 2)
    for (const { from, to, repeat } of this.parts) {
      if (repeat && this.parts.length > 1) this.frame({ top: 0, left: from, bottom: this.height, right: to }, colours.mark, 3)
    }
  }

  frame({ top, left, bottom, right }, colour, width, dash = []) {
    const { context, w, h } = this
    context.strokeStyle = colour
    context.lineWidth = width
    context.setLineDash(dash)
    context.strokeRect(this.x + left * w, this.y + top * h, (right - left) * w, (bottom - top) * h)
    context.setLineDash([])
  }

  // A bar low in each cell behind which a float is too long, cased so that it shows on any yarn.
  paintFloats() {
    if (!this.long.size) return
    const { context, w, h, seen, colours } = this
    for (const [colour, thick] of [[colours.paper, 5.5], [colours.error, 3]]) {
      context.beginPath()
      for (const key of this.long.keys()) {
        const [r, c] = [Math.floor(key / this.width), key % this.width]
        if (r < seen.top || r >= seen.bottom || c < seen.left || c >= seen.right) continue
        const y = this.y + (r + 1) * h - Math.max(2.5, h * 0.16)
        context.moveTo(this.x + c * w, y)
        context.lineTo(this.x + (c + 1) * w, y)
      }
      context.strokeStyle = colour
      context.lineWidth = thick
      context.stroke()
    }
  }

  // What is selected, or a block in hand where it hovers.
  paintBlock() {
    const { colours } = this
    if (this.hand) {
      const { rows, r, c } = this.hand
      const seen = { top: 0, left: 0, bottom: rows.length, right: rows[0].length }
      this.paintCells(rows, seen, c, r)
      const box = { top: r, left: c, bottom: r + rows.length, right: c + rows[0].length }
      this.frame(box, colours.paper, 4)
      this.frame(box, colours.mark, 3, [6, 4])
    } else if (this.selected) {
      this.frame(this.selected, colours.paper, 4)
      this.frame(this.selected, colours.mark, 3)
    }
  }

  paintNumbers(wide, high) {
    const { context, w, h, seen, colours, unit } = this
    const [edge, foot] = [Math.min(wide - SIDE, this.x + (this.width + this.margin.x) * w + 1), Math.min(high - FOOT, this.y + (this.height + this.margin.y) * h + 1)]
    context.fillStyle = colours.sheet
    context.fillRect(edge, 0, wide - edge, high)
    context.fillRect(0, foot, wide, high - foot)
    context.font = '12px Lato, sans-serif'
    context.textBaseline = 'middle'
    context.textAlign = 'left'
    const every = [1, 5, 10, 50].find(step => step * h >= 15) ?? 100
    for (let r = seen.top; r < seen.bottom; r++) {
      const line = this.height - r
      const here = r === this.focus.r
      if (line % every && line !== 1 && !here) continue
      const y = this.y + (r + 0.5) * h
      if (y > foot) break
      context.fillStyle = here ? colours.mark : colours.soft
      if (!here && Math.abs(r - this.focus.r) * h < 14) continue
      context.fillText(String(unit.first + (line - 1) * unit.every), edge + 7, y)
    }
    context.textAlign = 'center'
    const step = [1, 5, 10, 50].find(each => each * w >= 24) ?? 100
    for (let c = seen.left; c < seen.right; c++) {
      const stitch = this.width - c
      const here = c === this.focus.c
      if (stitch % step && stitch !== 1 && !here) continue
      const x = this.x + (c + 0.5) * w
      if (x > edge) break
      if (!here && Math.abs(c - this.focus.c) * w < 22) continue
      context.fillStyle = here ? colours.mark : colours.soft
      context.fillText(String(stitch), x, foot + FOOT / 2 + 1)
    }
  }

  // ------------------------------------------------------------ the row that is heard

  name({ r, c }) {
    const sign = this.rows[r][c]
    const float = this.long.get(r * this.width + c)
    const place = `stitch ${this.width - c}, ${this.unit.name} ${this.number(r)}`
    return `${said(this.legend, sign)}, ${place}${float ? `, ${float}` : ''}`
  }

  number(r) {
    return this.unit.first + (this.height - r - 1) * this.unit.every
  }

  // Real cells for the row of the focus; the one in focus takes the keyboard.
  voice() {
    const { focus, grid } = this
    grid.setAttribute('aria-label', this.title)
    grid.setAttribute('aria-rowcount', this.height)
    grid.setAttribute('aria-colcount', this.width)
    grid.setAttribute('aria-multiselectable', 'true')
    grid.setAttribute('aria-readonly', String(Boolean(this.frozen)))
    const held = grid.contains(document.activeElement)
    const row = element('div', { role: 'row', 'aria-rowindex': String(focus.r + 1) })
    for (let c = 0; c < this.width; c++) {
      const here = c === focus.c
      row.append(element('div', {
        role: 'gridcell', 'aria-colindex': String(c + 1), class: here ? 'here' : 'unseen', tabindex: here ? '0' : null,
        'aria-selected': String(Boolean(holds(this.selected, { r: focus.r, c }))),
      }, this.name({ r: focus.r, c })))
    }
    const old = grid.firstChild
    grid.append(row)
    this.place()
    if (held) row.children[focus.c].focus({ preventScroll: true })
    old?.remove()
  }

  // The ring of the focus around its cell.
  place() {
    const cell = this.grid.lastChild?.children[this.focus.c]
    if (!cell) return
    cell.style.left = `${this.left + this.focus.c * this.w}px`
    cell.style.top = `${this.top + this.focus.r * this.h}px`
    cell.style.width = `${this.w}px`
    cell.style.height = `${this.h}px`
  }

  go(cell, take = false) {
    this.focus = inside(this, cell)
    this.reveal(this.focus)
    this.voice()
    if (take) this.take()
    this.draw()
  }

  take() {
    this.grid.querySelector('[tabindex="0"]')?.focus({ preventScroll: true })
  }

  // Bring a cell into sight, with one beside it, clear of the numbers.
  reveal({ r, c }) {
    const { scroller, w, h } = this
    const [x, y] = [this.left + c * w, this.top + r * h]
    const [wide, high] = [scroller.clientWidth - SIDE, scroller.clientHeight - FOOT]
    if (x - w < scroller.scrollLeft) scroller.scrollLeft = x - w
    else if (x + 2 * w > scroller.scrollLeft + wide) scroller.scrollLeft = x + 2 * w - wide
    if (y - h < scroller.scrollTop) scroller.scrollTop = y - h
    else if (y + 2 * h > scroller.scrollTop + high) scroller.scrollTop = y + 2 * h - high
  }

  // ------------------------------------------------------------ the pointer

  at({ clientX, clientY }) {
    const frame = this.canvas.getBoundingClientRect()
    return {
      r: Math.floor((clientY - frame.top - this.y) / this.h),
      c: Math.floor((clientX - frame.left - this.x) / this.w),
    }
  }

  down(event) {
    if (!this.rows) return
    event.preventDefault()
    this.canvas.setPointerCapture(event.pointerId)
    this.pointers.set(event.pointerId, event)
    if (this.pointers.size === 2) { // a second finger moves the board
      this.chosen(null, 'cancel', event)
      this.panning = true
    }
    if (this.pointers.size === 1) this.chosen(this.at(event), 'down', event)
  }

  move(event) {
    const before = this.pointers.get(event.pointerId)
    if (!before) return
    if (this.panning) {
      const share = 1 / this.pointers.size
      this.scroller.scrollLeft -= (event.clientX - before.clientX) * share
      this.scroller.scrollTop -= (event.clientY - before.clientY) * share
    } else {
      for (const each of event.getCoalescedEvents?.() ?? [event]) this.chosen(this.at(each), 'move', event)
      this.chosen(this.at(event), 'move', event)
      this.follow(event)
    }
    this.pointers.set(event.pointerId, event)
  }

  // A drag that leaves the board takes it along.
  follow({ clientX, clientY }) {
    const frame = this.scroller.getBoundingClientRect()
    const past = (at, low, high) => Math.min(Math.max(at - high, 0), 24) - Math.min(Math.max(low - at, 0), 24)
    this.scroller.scrollLeft += past(clientX, frame.left + 8, frame.right - SIDE)
    this.scroller.scrollTop += past(clientY, frame.top + 8, frame.bottom - FOOT)
  }

  up(event, end) {
    if (!this.pointers.delete(event.pointerId)) return
    if (!this.panning) this.chosen(this.at(event), end === 'pointerup' ? 'up' : 'cancel', event)
    if (!this.pointers.size) this.panning = false
  }
}

// Which piece of a symbol over several cells stands at a column: they are counted from the start of its run.
function pieceOf(row, column, wide) {
  let start = column
  while (start > 0 && row[start - 1] === row[column]) start--
  return (column - start) % wide
}
