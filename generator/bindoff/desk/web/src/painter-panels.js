// The panels above the board, with what can be done.
import { element } from './dom.js'
import { action, tick } from './painter-tools.js'
import { upended } from './painter-grid.js'

export function panelsOf(painter) {
  return [
    { name: 'part', title: 'Selection', body: [
      action('Select all', () => painter.select({ top: 0, left: 0, bottom: painter.grid.height, right: painter.grid.width })),
      action('Copy', () => painter.copy()), action('Cut', () => painter.cutOut()), action('Paste', () => painter.hold(painter.clip)),
      action('Move', () => painter.lift()), action('Fill', () => painter.fill(painter.brush)),
      action('Left for right', () => painter.change('left for right', block => painter.leaning(block))),
      action('Upside down', () => painter.change('upside down', upended)),
      action('Quarter turn', () => painter.turn()),
      action('From a spreadsheet …', () => painter.pasting.askForCells()),
      element('p', { class: 'hint' }, 'Without a selection, these are for the whole grid. A block in hand is moved by drag or arrows; Enter lays it down, Escape lets it go.'),
    ] },
    { name: 'rounds', title: 'Rows and stitches', body: [
      action('Row above', () => painter.grow('above')), action('Row below', () => painter.grow('below')),
      action('Stitch on the left', () => painter.grow('left')), action('Stitch on the right', () => painter.grow('right')),
      action('Remove row', () => painter.shrink('row')), action('Remove stitch', () => painter.shrink('stitch')),
      painter.groundChoice = element('label', { class: 'amount' }),
      element('p', { class: 'hint' }, 'At the cell where you are; as many as are selected.'),
    ] },
    { name: 'under', title: 'Picture', body: painter.beneath.parts() },
    { name: 'look', title: 'Look', body: [
      tick('Cells in the proportions of the knitting', painter.look.ratio, on => painter.looks('ratio', on)),
      tick('Symbols of stitches instead of characters', painter.look.symbols, on => painter.looks('symbols', on)),
      tick('The repeat once more around it', painter.look.around, on => painter.looks('around', on)),
      tick('Long floats', painter.look.floats, on => painter.looks('floats', on)),
      tick('How it looks from afar', painter.look.preview, on => painter.looks('preview', on)),
    ] },
  ]
}
