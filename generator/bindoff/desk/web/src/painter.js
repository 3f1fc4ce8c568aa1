// The painter: a grid file as a board of cells. Everything it does is an edit of the file's text, so
// that what is written line for line, undone, saved or refused is the business of the source editor.
import { isolateHistory } from '@codemirror/commands'
import { announce, by, count, element, tell } from './dom.js'
import { Board } from './painter-board.js'
import { legendOf, said } from './painter-cells.js'
import {
  areaOf, boxOf, cellAt, changesFor, commonest, cut, filled, inside, isWhole, laid, mirrored, partsOf, placeOf,
  readGrid, turned, withColumns, withRows, withoutColumns, withoutRows,
} from './painter-grid.js'
import { Floats } from './painter-floats.js'
import { Hand } from './painter-hand.js'
import { Keys, keyWords } from './painter-keys.js'
import { panelsOf } from './painter-panels.js'
import { Pasting } from './painter-paste.js'
import { PictureBeneath } from './painter-picture.js'
import { Preview } from './painter-preview.js'
import { Panels, action, choice, swatch } from './painter-tools.js'

const TOOLS = [
  { value: 'draw', words: 'Draw', title: 'A drag paints with the brush' },
  { value: 'select', words: 'Select', title: 'A drag selects; a drag inside what is selected moves it' },
  { value: 'flood', words: 'Flood', title: 'A click paints all cells of one kind that hang together' },
]

export class Painter {
  constructor({ editor, frozen }) {
    this.editor = editor
    this.frozen = frozen
    this.way = 'paint'
    this.grids = new Map()
    this.kept = new Map() // file -> brush, ground, picture
    this.tool = 'draw'
    this.look = { ratio: true, symbols: true, around: true, floats: true, preview: true }
    this.clip = null
    this.pointers = new Hand(this)
    this.keys = new Keys(this)
    this.pasting = new Pasting(this)
    this.beneath = new PictureBeneath(this)
    this.counting = new Floats(this)
    this.build()
  }

  // ------------------------------------------------------------ what is on the page

  build() {
    this.ways = element('div', { class: 'ways', role: 'group', 'aria-label': 'The grid is shown as' },
      action('Board', () => this.show('paint'), { 'data-way': 'paint' }),
      action('Text', () => this.show('text'), { 'data-way': 'text' }))
    this.brushes = element('div', { class: 'brushes' })
    this.tools = element('div', { class: 'tool-line' })
    this.fault = element('p', { class: 'fault', hidden: true })
    this.where = element('p', { class: 'place-told' })
    this.size = element('p', { class: 'size-told' })
    const box = element('div', { class: 'board' })
    this.board = new Board(box, { chosen: (cell, how, event) => this.pointers.pointer(cell, how, event) })
    this.preview = new Preview()
    this.panels = new Panels(panelsOf(this))
    this.tools.append(
      choice('tool', 'What a drag does', TOOLS, this.tool, value => { this.tool = value; this.drop() }),
      element('div', { class: 'steps', role: 'group', 'aria-label': 'Size of the cells' },
        action('−', () => this.zoom(-1), { 'aria-label': 'Smaller cells' }), action('+', () => this.zoom(1), { 'aria-label': 'Larger cells' }),
        action('Whole', () => this.board.fit(), { 'aria-label': 'Show the whole grid' })))
    const inside = element('div', { class: 'inside' },
      this.brushes, this.tools, element('div', { class: 'heads' }, ...this.panels.heads), ...this.panels.bodies,
      this.preview.box, box, element('div', { class: 'told-line' }, this.where, this.size))
    this.inside = inside
    by('painter').append(element('div', { class: 'first-line' }, this.ways), this.fault, inside)
    const { grid } = this.board
    grid.addEventListener('keydown', event => this.keys.key(event))
    grid.addEventListener('keyup', event => { if (event.key === 'Shift') this.endStroke() })
    grid.addEventListener('focusout', event => { if (!grid.contains(event.relatedTarget)) this.endStroke() })
    for (const kind of ['copy', 'cut', 'paste']) grid.addEventListener(kind, event => this.pasting.clipboard(kind, event))
  }

  get view() {
    return this.editor.view
  }

  get open() {
    return !by('painter').hidden && this.grid && !this.grid.fault
  }

  // ------------------------------------------------------------ what is shown

  // What a version says of the grids; one that could not be built says it of those yet unknown.
  know({ grids = [], stale }) {
    for (const data of grids) {
      if (stale && this.grids.has(data.file)) continue
      const known = JSON.stringify(data)
      if (this.grids.get(data.file)?.known === known) continue
      this.grids.set(data.file, { ...data, known, legend: legendOf(data.legend) })
      if (data.file === this.file) this.refresh(true)
    }
  }

  // Another file is shown in the source column.
  shown(name) {
    const board = name.endsWith('.grid') && this.way === 'paint'
    by('painter').hidden = !name.endsWith('.grid')
    by('painter').classList.toggle('text-shown', !board)
    by('editor').hidden = board
    this.editor.panel = board ? 'painter' : 'editor'
    by('painter').setAttribute('aria-labelledby', `tab-${name}`)
    for (const button of this.ways.children) button.setAttribute('aria-pressed', String((button.dataset.way === 'paint') === board))
    this.inside.hidden = this.fault.hidden = true
    if (!board) {
      this.file = ''
      return
    }
    if (this.file !== name) {
      this.file = name
      this.selected = this.hand = this.stroke = null
      this.grid = null
      this.board.long = new Map()
    }
    this.refresh(true)
  }

  show(way) {
    this.endStroke()
    this.way = way
    this.shown(this.editor.current)
    this.editor.drawTabs()
    if (way === 'text') this.view.focus()
    else this.board.take()
  }

  get data() {
    return this.grids.get(this.file) ?? {
      title: this.file, unit: 'row', first: 1, every: 1, repeats: false, cell: [1, 1], limit: 0, legend: new Map(), columns: null,
    }
  }

  get mine() {
    if (!this.kept.has(this.file)) this.kept.set(this.file, {})
    return this.kept.get(this.file)
  }

  get signs() {
    const { legend } = this.data
    return legend.size ? [...legend.keys()] : [...new Set(this.grid.rows.flat())]
  }

  get brush() {
    return this.mine.brush ?? this.signs.find(sign => sign !== this.ground) ?? this.ground
  }

  get ground() {
    return this.mine.ground ?? commonest(this.grid.rows)
  }

  // Read the text of the file anew; `tools` where its legend may be another too.
  refresh(tools = false) {
    if (!this.file || this.file !== this.editor.current) return
    const grid = readGrid(this.editor.text(this.file), new Set(this.data.legend.keys()))
    const first = !this.grid
    this.grid = grid
    this.fault.hidden = !grid.fault
    this.fault.textContent = grid.fault ?? ''
    this.inside.hidden = Boolean(grid.fault)
    if (grid.fault) return
    if (this.data.columns && !grid.marked && isWhole({ ...grid, sides: this.data.columns })) grid.sides = this.data.columns
    if (this.selected && (this.selected.bottom > grid.height || this.selected.right > grid.width)) this.selected = null
    if (first) this.board.focus = this.opening()
    if (tools || this.drawn !== this.toolKey()) this.drawTools()
    this.draw()
    if (first) this.board.reveal(this.board.focus)
    this.counting.count()
  }

  // Where one is when a grid is opened: at the cursor of the text, or where the knitting begins.
  opening() {
    const { height, width } = this.grid
    return this.view.state.selection.main.head ? cellAt(this.grid, this.editor.cursor.at) : { r: height - 1, c: width - 1 }
  }

  draw() {
    const { grid, data, board } = this
    const rows = this.stroke?.rows ?? (this.hand?.lifted ? laid(grid.rows, this.hand.lifted.left, this.hand.lifted) : grid.rows)
    const parts = partsOf(grid)
    const ratio = this.look.ratio ? data.cell[0] / data.cell[1] : 1
    const again = data.repeats && this.look.around
    board.show({
      rows, legend: data.legend, ratio, parts, symbols: this.look.symbols, selected: this.selected, hand: this.hand,
      frozen: this.frozen, picture: this.mine.picture,
      around: again && !grid.sides.length, // beside edges the repeat is no neighbour of itself
      unit: { name: data.unit, first: data.first, every: data.every },
      title: `${data.title}, ${count(grid.width, 'stitch', 'stitches')} by ${count(grid.height, data.unit)}`,
    })
    this.preview.canvas.hidden = this.preview.box.hidden = !this.look.preview || new Set([...data.legend.values()].map(each => each.colour)).size < 2
    if (!this.preview.canvas.hidden) {
      this.preview.show({ rows, legend: data.legend, parts, again: data.repeats, ratio: data.cell[0] / data.cell[1], paper: '#ffffff' })
    }
    this.tellWhere()
  }

  toolKey() {
    return JSON.stringify([this.file, this.data.known, this.data.known ? '' : this.signs])
  }

  drawTools() {
    this.drawn = this.toolKey()
    this.beneath.show()
    const { legend } = this.data
    const style = getComputedStyle(by('painter'))
    const [paper, ink] = ['--paint-paper', '--paint-ink'].map(name => style.getPropertyValue(name).trim())
    const held = this.brushes.contains(document.activeElement)
    this.brushes.replaceChildren(choice('brush', 'Brush', this.signs.map(sign => ({
      value: sign, words: legend.get(sign)?.name || `character ${sign}`, title: `${said(legend, sign)}; its key is ${sign}`,
      mark: swatch(legend.get(sign), sign, this.look.symbols, paper, ink),
    })), this.brush, sign => { this.mine.brush = sign }))
    if (held) this.brushes.querySelector('input:checked')?.focus()
    const options = this.signs.map(sign => element('option', { value: sign, selected: sign === this.ground }, legend.get(sign)?.name || sign))
    this.groundChoice.replaceChildren(element('span', {}, 'New cells, and those left behind'),
      element('select', { onchange: event => { this.mine.ground = event.target.value } }, ...options))
    for (const each of this.inside.querySelectorAll('.brushes input, .panel button, .panel select')) each.disabled = this.frozen
  }

  take(sign) {
    this.mine.brush = sign
    for (const input of this.brushes.querySelectorAll('input')) input.checked = input.value === sign
  }

  tellWhere() {
    const { grid, board: { focus }, data } = this
    const float = this.board.long.get(focus.r * grid.width + focus.c)
    this.where.textContent = `Stitch ${grid.width - focus.c} of ${data.unit} ${this.board.number(focus.r)}: ${said(data.legend, (this.board.rows ?? grid.rows)[focus.r][focus.c])}${float ? `; ${float}` : ''}`
    const floats = !data.limit ? '' : this.floats ? ` · ${count(this.floats, 'long float')}` : ' · no long float'
    this.size.textContent = `${count(grid.width, 'stitch', 'stitches')} × ${count(grid.height, data.unit)}${floats}`
  }

  looks(name, on) {
    this.look[name] = on
    if (name === 'symbols') this.drawTools()
    if (name === 'floats') this.counting.count(0)
    this.draw()
  }

  zoom(step) {
    this.board.zoom(step)
    announce(`Cells of ${this.board.size} pixels.`, 'zoom')
  }

  // ------------------------------------------------------------ edits

  // Write a grid as it is to be: one step to undo.
  write(next, words, say = announce) {
    if (this.refused()) return false
    const changes = changesFor(this.grid, next)
    if (!changes.length) {
      tell('That changes nothing.')
      this.draw()
      return false
    }
    this.view.dispatch({ changes, annotations: isolateHistory.of('full'), userEvent: 'input.paint' })
    say(words)
    this.follow()
    return true
  }

  refused() {
    if (this.frozen) tell('This desk is for reading only.')
    return this.frozen
  }

  step(way) {
    this.endStroke()
    if (this.hand) return this.drop()
    if (!this.refused()) this.editor.step(way)
  }

  // The cursor of the source goes along, so that the pages show where one is.
  follow() {
    const [line, column] = placeOf(this.grid, this.board.focus)
    const { doc } = this.view.state
    const at = doc.line(Math.min(line, doc.lines))
    const anchor = at.from + [...at.text].slice(0, column - 1).join('').length
    this.view.dispatch({ selection: { anchor } })
    this.tellWhere()
  }

  go(cell, reveal = true) {
    if (reveal) this.board.go(cell, true)
    else {
      this.board.focus = inside(this.grid, cell)
      this.board.voice()
      this.board.take()
      this.board.draw()
    }
    this.follow()
  }

  name(sign) {
    return this.data.legend.get(sign)?.name || `character ${sign}`
  }

  // ------------------------------------------------------------ strokes

  dab(cells, sign) {
    if (this.frozen) return
    this.stroke ??= { rows: this.grid.rows.slice(), own: new Set(), cells: new Set(), sign }
    const { rows, own } = this.stroke
    for (const { r, c } of cells) {
      if (rows[r]?.[c] === undefined) continue
      if (!own.has(r)) {
        own.add(r)
        rows[r] = rows[r].slice()
      }
      rows[r][c] = sign
      this.stroke.cells.add(r * this.grid.width + c)
    }
    this.board.rows = rows
    this.board.draw()
  }

  flood(cell) {
    this.dab(areaOf(this.grid.rows, cell), this.brush)
    this.endStroke()
  }

  paintHere(sign) {
    if (this.hand) return tell('Lay the block down first, with Enter.')
    if (this.refused()) return
    if (this.selected) return this.fill(sign)
    if (this.tool === 'flood') return this.flood(this.board.focus)
    this.dab([this.board.focus], sign)
    this.endStroke()
  }

  endStroke() {
    const { stroke } = this
    if (!stroke) return
    this.stroke = null
    const { size } = stroke.cells
    const words = size === 1 ? this.board.name(this.board.focus) : `${count(size, 'stitch', 'stitches')} ${this.name(stroke.sign)}`
    this.write({ ...this.grid, rows: stroke.rows }, `${words}.`)
  }

  // ------------------------------------------------------------ selections and blocks

  get target() {
    return this.selected ?? { top: 0, left: 0, bottom: this.grid.height, right: this.grid.width }
  }

  select(box) {
    this.selected = box
    this.draw()
    if (!box) return
    const { unit } = this.data
    announce(`${count(box.right - box.left, 'stitch', 'stitches')} by ${count(box.bottom - box.top, unit)} selected.`, 'selection')
  }

  copy(data) {
    const rows = this.hand?.rows ?? cut(this.grid.rows, this.target)
    this.clip = rows
    const text = rows.map(row => row.join('')).join('\n')
    if (data) data.setData('text/plain', text)
    else navigator.clipboard?.writeText(text).catch(() => {}) // the copy kept here serves this page
    tell(`${count(rows[0].length, 'stitch', 'stitches')} by ${count(rows.length, this.data.unit)} copied.`)
  }

  cutOut(data) {
    this.copy(data)
    this.fill(this.ground, this.target)
  }

  fill(sign, box = this.selected) {
    if (!box) return tell('Select cells first.')
    const rows = laid(this.grid.rows, filled(box, sign), { r: box.top, c: box.left })
    const cells = (box.bottom - box.top) * (box.right - box.left)
    this.write({ ...this.grid, rows }, `${count(cells, 'stitch', 'stitches')} ${this.name(sign)}.`)
  }

  leaning(block) {
    const partner = new Map()
    const lone = new Set()
    for (const { sign, mirror } of this.data.legend.values()) {
      if (mirror) partner.set(sign, mirror)
      else if (block.some(line => line.includes(sign))) lone.add(this.name(sign))
    }
    this.lone = [...lone]
    return mirrored(block, partner)
  }

  change(words, make) {
    this.endStroke()
    this.lone = []
    const lone = () => (this.lone.length ? ` The legend has nothing that leans the other way for ${this.lone.join(', ')}.` : '')
    if (this.hand) {
      this.hand = { ...this.hand, rows: make(this.hand.rows) }
      this.draw()
      return tell(`The block ${words}.${lone()}`)
    }
    const box = this.target
    const rows = laid(this.grid.rows, make(cut(this.grid.rows, box)), { r: box.top, c: box.left })
    this.write({ ...this.grid, rows }, `${this.selected ? 'The selection' : 'The grid'} ${words}.${lone()}`, this.lone.length ? tell : announce)
  }

  turn() {
    const { top, left, bottom, right } = this.target
    if (this.hand || bottom - top === right - left) return this.change('turned', turned)
    if (!this.selected) return tell('Only a square turns in its place. Select a part, and lay it where it goes.')
    this.lift()
    this.hand.rows = turned(this.hand.rows)
    this.draw()
    tell('Turned, and in hand: move it with the arrows, and lay it down with Enter.')
  }

  // Take the selection in hand; where it was, ground is left.
  lift(leave = true) {
    if (this.refused()) return
    if (!this.selected) return tell('Select cells first.')
    const box = this.selected
    const rows = cut(this.grid.rows, box)
    const lifted = leave ? { left: filled(box, this.ground), r: box.top, c: box.left } : null
    this.hold(rows, { r: box.top, c: box.left }, lifted)
  }

  hold(rows, at = this.selected ? { r: this.selected.top, c: this.selected.left } : this.board.focus, lifted = null) {
    if (this.refused()) return
    if (!rows) return tell('Nothing has been copied.')
    this.endStroke()
    this.hand = { rows, ...at, lifted }
    this.selected = null
    this.draw()
    this.board.take()
    tell('A block in hand: move it with the arrows, lay it down with Enter, let it go with Escape.')
  }

  move(down, across) {
    const { rows } = this.hand
    const { width, height } = this.grid
    this.hand.r = Math.min(Math.max(this.hand.r + down, 1 - rows.length), height - 1)
    this.hand.c = Math.min(Math.max(this.hand.c + across, 1 - rows[0].length), width - 1)
    this.board.hand = this.hand
    this.board.go({ r: this.hand.r, c: this.hand.c }, true)
    this.tellWhere()
  }

  layDown() {
    const { rows, r, c, lifted } = this.hand
    const free = lifted ? laid(this.grid.rows, lifted.left, lifted) : this.grid.rows
    this.hand = null
    const { width, height } = this.grid
    this.selected = {
      top: Math.max(r, 0), left: Math.max(c, 0), bottom: Math.min(r + rows.length, height), right: Math.min(c + rows[0].length, width),
    }
    const over = r < 0 || c < 0 || r + rows.length > height || c + rows[0].length > width
    this.write({ ...this.grid, rows: laid(free, rows, { r, c }) }, `Laid down.${over ? ' What hung over the edge is left out.' : ''}`)
  }

  drop() {
    if (this.hand) tell('Let go.')
    this.hand = this.selected = null
    this.stroke = null
    if (this.open) this.draw()
  }

  // ------------------------------------------------------------ rounds and stitches

  grow(side) {
    const { grid, board: { focus } } = this
    const box = this.selected ?? boxOf(focus, focus)
    const rows = side === 'above' || side === 'below'
    const many = this.selected ? (rows ? box.bottom - box.top : box.right - box.left) : 1
    const next = rows
      ? withRows(grid, side === 'above' ? box.top : box.bottom, many, this.ground)
      : withColumns(grid, side === 'left' ? box.left : box.right, many, side === 'left' ? box.left : box.right - 1, this.ground)
    const what = rows ? count(many, this.data.unit) : count(many, 'stitch', 'stitches')
    if (side === 'above') focus.r += many
    if (side === 'left') focus.c += many
    this.selected = null
    this.write(next, `${what} more: ${count(next.rows[0].length, 'stitch', 'stitches')} by ${count(next.rows.length, this.data.unit)}.`)
  }

  shrink(what) {
    const { grid, board: { focus } } = this
    const box = this.selected ?? boxOf(focus, focus)
    const next = what === 'row' ? withoutRows(grid, box.top, box.bottom) : withoutColumns(grid, box.left, box.right)
    if (!isWhole(next)) return tell('At least one has to stay.')
    const many = what === 'row' ? box.bottom - box.top : box.right - box.left
    this.selected = null
    this.write(next, `${what === 'row' ? count(many, this.data.unit) : count(many, 'stitch', 'stitches')} removed: ${count(next.rows[0].length, 'stitch', 'stitches')} by ${count(next.rows.length, this.data.unit)}.`)
  }

  // ------------------------------------------------------------ to and from the rest of the desk

  // Go to a place of the file that is shown here; whether it is.
  point(file, at, take) {
    if (!this.open || file !== this.file) return false
    this.board.go(cellAt(this.grid, at), take)
    if (take) this.follow()
    this.tellWhere()
    return true
  }

  // Go to a cell that a page shows: its line from below and its stitch from the right.
  goTo(file, { line, stitch }, take) {
    this.way = 'paint'
    this.editor.show(file)
    if (this.file !== file) this.shown(file)
    if (!this.open) return
    const cell = inside(this.grid, { r: this.grid.height - line, c: this.grid.width - stitch })
    this.selected = null
    this.board.go(cell, take)
    this.draw()
    if (take) this.follow()
  }

  // The cell at a place of a grid file, as pages count; null for other files.
  cellOf(file, at) {
    if (!this.open || file !== this.file) return null
    const { r, c } = cellAt(this.grid, at)
    return { line: this.grid.height - r, stitch: this.grid.width - c }
  }

  get keyWords() {
    return keyWords
  }
}
