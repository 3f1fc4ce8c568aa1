// Copied cells: of this board, of an editor, of a spreadsheet.
import { announce, by, code, count, dialog, element, tell } from './dom.js'
import { isWhole } from './painter-grid.js'
import { cellsOf, textCells } from './painter-sheet.js'
import { action } from './painter-tools.js'
import { ask, client } from './server.js'

export class Pasting {
  constructor(painter) {
    this.painter = painter
  }

  // What the clipboard is asked for on the board.
  async clipboard(kind, event) {
    event.preventDefault()
    this.painter.endStroke()
    if (kind === 'copy') return this.painter.copy(event.clipboardData)
    if (kind === 'cut') return this.painter.cutOut(event.clipboardData)
    const rows = await this.understood(cellsOf(event.clipboardData))
    if (rows) this.painter.hold(rows)
  }

  // Cells as rows of signs, or null after saying why they are none.
  async understood(cells) {
    const told = await ask('paste', { client, file: this.painter.file, rows: cells, empty: this.painter.ground })
    if (told.rows) return told.rows.map(row => [...row])
    const faults = told.faults ?? [told.fault]
    announce(`Nothing was pasted. ${faults[0]}`)
    if (by('dialog').open) by('dialog').querySelector('.paste-fault').replaceChildren(faultList(faults))
    else this.askForCells(faults)
    return null
  }

  askForCells(faults = []) {
    const told = element('div', { class: 'paste-fault', role: 'alert' }, faultList(faults))
    let cells = null
    const seen = element('p', { class: 'hint' }, '')
    const area = element('textarea', {
      rows: '6', cols: '40', id: 'paste-here', spellcheck: 'false',
      onpaste: event => {
        cells = cellsOf(event.clipboardData)
        seen.textContent = `${cells[0].length} columns by ${count(cells.length, 'row')} are here.`
      },
      oninput: event => { if (event.inputType !== 'insertFromPaste') { cells = null; seen.textContent = '' } },
    })
    const use = whole => async () => {
      const rows = await this.understood(cells ?? textCells(area.value.replace(/\n+$/, '')))
      if (!rows) return
      by('dialog').close()
      if (!whole) return this.painter.hold(rows)
      if (!isWhole({ ...this.painter.grid, rows })) return tell('They are fewer than the edges of this grid.')
      this.painter.selected = this.painter.hand = null
      this.painter.write({ ...this.painter.grid, rows }, `The grid is now ${count(rows[0].length, 'stitch', 'stitches')} by ${count(rows.length, this.painter.data.unit)}.`)
    }
    dialog('From a spreadsheet',
      element('p', {}, 'Copy the cells in the spreadsheet, one for each stitch, the last row on top, and paste them here. A cell says a yarn, a stitch or a character of the legend, or is filled with a color, which becomes the nearest yarn. An empty one becomes ', element('strong', {}, this.painter.name(this.painter.ground)), '.'),
      element('label', { for: 'paste-here' }, 'Cells'), area, seen, told,
      element('p', { class: 'ways-out' }, action('Lay on the grid', use(false)), ' ', action('Make them the grid', use(true))))
    area.focus()
  }
}

const faultList = faults =>
  (faults.length ? element('ul', {}, ...faults.slice(0, 8).map(each => element('li', {}, ...code(each)))) : '')
