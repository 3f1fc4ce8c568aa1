// The strip at the foot: how the figures of the marked line were reckoned, one line a size.
import { by, element } from './dom.js'
import { ask, client } from './server.js'

const hint = 'How a figure was reckoned stands here: put the cursor on a measure or a step, or click on a page.'

const written = formula => element('span', { class: 'formula' }, ` = ${formula} `)

export class Reckoning {
  // `chosen(line)` is told of the line of a measure whose name was pressed.
  constructor({ chosen }) {
    this.chosen = chosen
    this.turn = 0
  }

  // Shows them and gives the title of what they are of, empty if that is nothing.
  async show(file, line) {
    const turn = ++this.turn
    const told = await ask('why', { client, file, line }).catch(() => ({}))
    if (turn !== this.turn) return ''
    const box = by('reckoning')
    if (!told.title || !told.figures.length) {
      box.replaceChildren(element('p', { class: 'hint' }, hint))
      return told.title ?? ''
    }
    const count = told.figures.flatMap(({ rows }) => rows).flatMap(({ sizes }) => sizes)
    const all = new Set(count).size
    box.replaceChildren(element('h2', {}, told.title), ...told.figures.map(figure => this.figure(figure, told.lines, all)))
    return told.title
  }

  // A formula that is the same in every size stands once, before them.
  figure({ name, rows }, lines, all) {
    const formulas = new Set(rows.map(row => row.formula))
    const shared = rows.length > 1 && formulas.size === 1 ? rows[0].formula : ''
    return element('section', {},
      element('h3', {}, name),
      element('div', { class: 'values' }, shared ? element('p', {}, written(shared)) : null,
        ...rows.map(row => this.row(shared ? { ...row, formula: '' } : row, lines, all))))
  }

  row({ sizes, value, formula, inputs, note }, lines, all) {
    const names = inputs.map(([name, figure]) => element('span', {}, ' · ',
      lines[name] ? element('button', { type: 'button', onclick: () => this.chosen(lines[name]) }, name) : name, ` ${figure}`))
    return element('p', {},
      element('span', { class: 'sizes' }, sizes.length === all && all > 1 ? 'all sizes' : sizes.join(', ')), ' ',
      element('strong', {}, value),
      formula ? written(formula) : null,
      ...names,
      note ? ` · ${note}` : null)
  }
}
