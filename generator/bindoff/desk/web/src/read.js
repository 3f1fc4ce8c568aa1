// The reading column: findings, grouped by what they are about, and the text edition.
import { announce, by, count, element } from './dom.js'
import { sentence } from './editor.js'

const order = ['error', 'warning', 'note']
const words = { error: 'error', warning: 'warning', note: 'note' }
const signs = { error: '■', warning: '▲', note: '●' }

export class Read {
  // `chosen(finding)` is told which one was pressed.
  constructor({ chosen }) {
    this.chosen = chosen
    this.findings = []
    this.before = null
    this.shown = []
    for (const button of document.querySelectorAll('#read nav button')) {
      button.onclick = () => {
        const title = by(button.dataset.part)
        title.focus({ preventScroll: true })
        title.scrollIntoView({ block: 'start' })
      }
    }
  }

  show(findings) {
    this.findings = findings
    const fresh = key => this.before !== null && !this.before.has(key)
    const groups = Map.groupBy
      ? Map.groupBy(findings, each => each.id)
      : findings.reduce((all, each) => all.set(each.id, [...(all.get(each.id) ?? []), each]), new Map())
    const sorted = [...groups.values()].sort(([one], [other]) =>
      order.indexOf(one.severity) - order.indexOf(other.severity))
    this.inOrder = sorted.flat()
    by('findings').replaceChildren(...sorted.map(group => this.group(group, fresh)))
    if (!findings.length) by('findings').append(element('p', { class: 'sound' }, 'Nothing was found. The pattern is sound.'))
    const said = order
      .map(severity => [severity, findings.filter(each => each.severity === severity).length])
      .filter(([, number]) => number)
      .map(([severity, number]) => count(number, words[severity]))
      .join(', ')
    by('count').textContent = said ? `– ${said}` : ''
    clearTimeout(this.timer)
    if (said !== this.said) this.timer = setTimeout(() => announce(said || 'Nothing was found.'), 1000)
    this.said = said
    this.before = new Set(findings.map(key))
  }

  group(group, fresh) {
    const { severity } = group[0]
    const head = group.length > 1
      ? element('h3', { class: 'cause' }, `${count(group.length, words[severity])} of one kind`)
      : null
    return element('div', { class: `group ${severity}` }, head, ...group.map(each => this.one(each, fresh(key(each)))))
  }

  one(finding, isNew) {
    const where = finding.file ? `${finding.file}, line ${finding.line}` : ''
    const sizes = finding.sizes.length ? `sizes ${finding.sizes.join(', ')}` : ''
    const place = [where, sizes].filter(Boolean).join(' · ')
    const follows = finding.follows.length
      ? element('details', {},
        element('summary', {}, `${count(finding.follows.length, 'more finding')} because of it`),
        element('ul', {}, ...finding.follows.map(each => element('li', {}, sentence(each.message)))))
      : null
    const text = [
      element('span', { class: 'sign', 'aria-hidden': 'true' }, signs[finding.severity]),
      element('span', { class: 'unseen' }, `${words[finding.severity]}: `),
      element('span', { class: 'said' }, sentence(finding.message)),
    ]
    const head = finding.file
      ? element('button', { type: 'button', class: 'finding', onclick: () => this.chosen(finding) }, ...text)
      : element('p', { class: 'finding' }, ...text)
    return element('div', { class: 'item' }, head,
      element('p', { class: 'help' }, sentence(finding.help)),
      element('p', { class: 'where' }, place, isNew ? element('strong', {}, place ? ' · new' : 'new') : null),
      follows)
  }

  // The finding after or before the one that was last stepped to.
  step(by) {
    const placed = (this.inOrder ?? []).filter(each => each.file)
    if (!placed.length) return announce('There are no findings.')
    this.at = ((this.at ?? (by > 0 ? -1 : 0)) + by + placed.length) % placed.length
    this.chosen(placed[this.at])
    announce(`${words[placed[this.at].severity]}: ${sentence(placed[this.at].message)}`)
  }

  // Sections that say the same keep their elements, so that nobody loses the place.
  text(sections) {
    const box = by('text')
    const old = this.shown
    this.shown = sections.map(each => JSON.stringify(each))
    while (box.children.length > sections.length) box.lastChild.remove()
    sections.forEach((each, index) => {
      if (old[index] === this.shown[index] && box.children[index]) return
      const made = section(each)
      if (box.children[index]) box.children[index].replaceWith(made)
      else box.append(made)
    })
  }
}

function section({ number, title, lines }) {
  const depth = number ? number.split('.').length : 0
  const head = title ? element(`h${Math.min(2 + Math.max(depth, 1), 6)}`, {}, `${number} ${title}`) : null
  return element('section', { class: 'told' }, head, ...lines.map(line => element('p', {}, line)))
}

const key = finding => `${finding.id}|${finding.message}`
