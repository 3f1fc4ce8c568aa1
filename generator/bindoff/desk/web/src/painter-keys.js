// What the keys do on the board.
import { tell } from './dom.js'
import { boxOf, inside } from './painter-grid.js'

const STEPS = { ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] }
const FAR = 10 // rounds that the page keys go

export const keyWords = [
  ['On the board:', ''],
  ['arrows, Home, End, page keys', 'go from cell to cell'],
  ['a character of the legend', 'paints the cell with it'], ['Space', 'paints with the brush'],
  ['Shift and arrows', 'paint on; with Select, select on'], ['Ctrl Shift and arrows', 'select on'],
  ['Ctrl C, X, V', 'copy, cut, paste'], ['Delete', 'leaves the ground'],
  ['Enter, Escape', 'lay down a block in hand, let it go'], ['Alt and click, or the right button', 'takes the brush from a cell'],
]

export class Keys {
  constructor(painter) {
    this.painter = painter
  }

  key(event) {
    const mod = event.ctrlKey || event.metaKey
    const { focus } = this.painter.board
    const { width, height } = this.painter.grid
    const step = STEPS[event.key]
    const done = () => { event.preventDefault(); event.stopPropagation() }
    if (step && !event.altKey) {
      done()
      if (this.painter.hand) return this.painter.move(...step)
      return this.arrow(step, event.shiftKey, mod)
    }
    const far = {
      Home: { r: mod ? 0 : focus.r, c: 0 }, End: { r: mod ? height - 1 : focus.r, c: width - 1 },
      PageUp: { r: focus.r - FAR, c: focus.c }, PageDown: { r: focus.r + FAR, c: focus.c },
    }[event.key]
    if (far) {
      done()
      this.painter.endStroke()
      return this.painter.go(far)
    }
    const letter = event.key.toLowerCase()
    if (mod && !event.altKey) {
      const ways = {
        z: () => (event.shiftKey ? this.painter.step('redo') : this.painter.step('undo')),
        y: () => this.painter.step('redo'),
        a: () => this.painter.select({ top: 0, left: 0, bottom: height, right: width }),
      }
      if (ways[letter]) { done(); ways[letter]() }
      return
    }
    if (event.key === 'Escape') { done(); return this.painter.drop() }
    if (event.key === 'Enter' && this.painter.hand) { done(); return this.painter.layDown() }
    if (event.key === ' ' || event.key === 'Enter') { done(); return this.painter.paintHere(this.painter.brush) }
    if (event.key === 'Delete' || event.key === 'Backspace') { done(); return this.painter.paintHere(this.painter.ground) }
    if (this.painter.signs.includes(event.key)) {
      done()
      this.painter.take(event.key)
      return this.painter.paintHere(event.key)
    }
    if (event.key.length === 1 && event.key !== '?') tell(`${event.key} is not in the legend.`)
  }

  arrow([down, across], shift, mod) {
    const { focus } = this.painter.board
    const to = inside(this.painter.grid, { r: focus.r + down, c: focus.c + across })
    if (!shift) {
      this.painter.endStroke()
      return this.painter.go(to)
    }
    if (mod || this.painter.tool === 'select') {
      if (!this.painter.selected || !this.painter.anchor) this.painter.anchor = focus
      this.painter.board.go(to, true)
      return this.painter.select(boxOf(this.painter.anchor, to))
    }
    if (this.painter.refused()) return
    this.painter.dab([focus, to], this.painter.brush)
    this.painter.board.go(to, true)
    this.painter.tellWhere()
  }
}
