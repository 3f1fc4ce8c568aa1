// What a mouse, a pen or a finger does on the board.
import { tell } from './dom.js'
import { between, boxOf, holds, inside } from './painter-grid.js'

export class Hand {
  constructor(painter) {
    this.painter = painter
  }

  // A cell under the pointer: `how` is 'down', 'move', 'up' or 'cancel'.
  pointer(cell, how, event) {
    if (how === 'cancel') {
      this.painter.stroke = this.drag = null
      if (this.painter.open) this.painter.draw()
      return
    }
    if (how === 'down') return this.press(cell, event)
    if (!this.drag) return
    if (how === 'move') {
      const { from, last } = this.drag
      if (last.r === cell.r && last.c === cell.c) return
      if (this.drag.kind === 'draw') this.painter.dab(between(last, cell), this.drag.sign)
      else if (this.drag.kind === 'select') {
        this.painter.selected = boxOf(inside(this.painter.grid, from), inside(this.painter.grid, cell))
        this.painter.board.selected = this.painter.selected
        this.painter.board.draw()
      } else if (this.drag.kind === 'hand') {
        this.painter.move(cell.r - last.r, cell.c - last.c)
      }
      this.drag.last = cell
      return
    }
    const { kind, from } = this.drag
    this.drag = null
    if (kind === 'draw') this.painter.endStroke()
    if (kind === 'select') {
      const single = from.r === cell.r && from.c === cell.c
      this.painter.go(cell, false)
      this.painter.select(single ? null : this.painter.selected)
    }
    if (kind === 'hand' && this.painter.hand?.byDrag) this.painter.layDown()
  }

  press(cell, event) {
    this.painter.endStroke()
    const within = cell.r >= 0 && cell.c >= 0 && cell.r < this.painter.grid.height && cell.c < this.painter.grid.width
    if (this.painter.hand) {
      const { rows, r, c } = this.painter.hand
      const box = { top: r, left: c, bottom: r + rows.length, right: c + rows[0].length }
      if (holds(box, cell)) this.drag = { kind: 'hand', from: cell, last: cell }
      else this.painter.layDown()
      return
    }
    if (!within) return
    if (event.button === 2 || event.altKey) { // a look at what lies there: it becomes the brush
      this.painter.take(this.painter.grid.rows[cell.r][cell.c])
      tell(`Brush: ${this.painter.name(this.painter.brush)}.`)
      return
    }
    if (event.button) return
    if (this.painter.tool === 'select' && holds(this.painter.selected, cell) && !this.painter.frozen) {
      this.painter.lift(!event.ctrlKey)
      this.painter.hand.byDrag = true
      this.drag = { kind: 'hand', from: cell, last: cell }
      return
    }
    this.painter.selected = this.painter.board.selected = this.painter.anchor = null
    this.painter.go(cell, false)
    if (this.painter.refused()) return
    if (this.painter.tool === 'flood') return this.painter.flood(cell)
    this.drag = { kind: this.painter.tool, from: cell, last: cell, sign: this.painter.brush }
    if (this.painter.tool === 'draw') this.painter.dab([cell], this.painter.brush)
    else this.painter.selected = boxOf(cell, cell)
  }
}
