// The reading column: findings, grouped by what they are about, and the text edition.
import { announce, by, code, count, element, tell } from './dom.js'
import { sentence } from './editor.js'

const order = ['error', 'warning', 'note']
const words = { error: 'error', warning: 'warning', note: 'note' }
const signs = { error: '■', warning: '▲', note: '●' }

export class Read {
  // `chosen(finding)` is told which one was pressed, `mend(finding, fix)` which fix is wanted,
  // `silenced(check, because)` which check is to be silenced, and why.
  constructor({ chosen, mend, silenced }) {
    this.chosen = chosen
    this.mend = mend
    this.silenced = silenced
    this.frozen = false // whether nothing may be changed
    this.findings = []
    this.known = null
    this.shown = []
    for (const button of document.querySelectorAll('#read nav button')) {
      button.onclick = () => {
        const title = by(button.dataset.part)
        title.focus({ preventScroll: true })
        title.scrollIntoView({ block: 'start' })
      }
    }
  }

  // Findings that were not there when the pattern was opened or last saved are new.
  show(findings) {
    this.findings = findings
    this.known ??= new Set(findings.map(key))
    const groups = new Map()
    for (const each of findings) groups.set(each.id, [...(groups.get(each.id) ?? []), each])
    const sorted = [...groups.values()].sort(([one], [other]) =>
      order.indexOf(one.severity) - order.indexOf(other.severity))
    this.inOrder = sorted.flat()
    const held = this.typing()
    by('findings').replaceChildren(...sorted.map(group => this.group(group)))
    if (held) this.goOn(held)
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
  }

  // What is found from now on is new.
  settled() {
    this.known = new Set(this.findings.map(key))
  }

  // One cause; where its findings are about different sizes, those of each under them.
  group(group) {
    const { severity } = group[0]
    const fresh = group.filter(each => !this.known.has(key(each))).length
    const head = group.length > 1
      ? element('h3', { class: 'cause' }, `${count(group.length, words[severity])} of one kind${fresh ? `, ${fresh} new` : ''}`)
      : null
    const bySizes = new Map()
    for (const each of group) {
      const of = each.sizes.join(', ')
      bySizes.set(of, [...(bySizes.get(of) ?? []), each])
    }
    const several = bySizes.size > 1
    return element('div', { class: `group ${severity}` }, head, ...[...bySizes].flatMap(([of, some]) => [
      several ? element('h4', { class: 'of-size' }, of ? `${of.includes(',') ? 'Sizes' : 'Size'} ${of}` : 'All sizes') : null,
      ...some.map(each => this.one(each, !this.known.has(key(each)), several)),
    ].filter(Boolean)), this.silence(group))
  }

  one(finding, isNew, underSize) {
    const where = finding.file ? `${finding.file}, line ${finding.line}` : ''
    const sizes = finding.sizes.length && !underSize ? `sizes ${finding.sizes.join(', ')}` : ''
    const place = [where, sizes].filter(Boolean).join(' · ')
    const follows = finding.follows.length
      ? element('details', {},
        element('summary', {}, `${count(finding.follows.length, 'more finding')} because of it`),
        element('ul', {}, ...finding.follows.map(each => element('li', {}, ...code(sentence(each.message))))))
      : null
    const text = [
      element('span', { class: 'sign', 'aria-hidden': 'true' }, signs[finding.severity]),
      element('span', { class: 'unseen' }, `${words[finding.severity]}: `),
      element('span', { class: 'said' }, ...code(sentence(finding.message))),
    ]
    const head = finding.file
      ? element('button', { type: 'button', class: 'finding', onclick: () => this.chosen(finding) }, ...text)
      : element('p', { class: 'finding' }, ...text)
    const fixes = this.frozen || !finding.file ? [] : finding.fixes.map(fix => element('button', {
      type: 'button', class: 'fix', onclick: () => this.mend(finding, fix),
    }, ...code(fix.words)))
    return element('div', { class: 'item' }, head,
      element('p', { class: 'help' }, ...code(sentence(finding.help))),
      ...finding.beside.map(other => element('button', {
        type: 'button', class: 'fix beside', onclick: () => this.chosen({ ...finding, ...other }),
      }, `and ${other.file}, line ${other.line}`)),
      element('p', { class: 'where' }, place, isNew ? element('strong', {}, place ? ' · new' : 'new') : null),
      fixes.length ? element('p', { class: 'fixes' }, ...fixes) : null,
      follows)
  }

  // A check may be silenced by a form that asks why; the reason stays in the pattern.
  silence(group) {
    const [{ id }] = group
    if (this.frozen || !group.some(each => each['can be silenced'])) return null
    const reason = element('input', { size: '24', autocomplete: 'off', 'data-check': id, required: true })
    const form = element('form', { class: 'silence', onsubmit: event => {
      event.preventDefault()
      if (reason.value.trim()) this.silenced(id, reason.value)
      else reason.focus()
    } },
    element('label', {}, `It is meant so, because `, reason),
    element('button', { type: 'submit' }, 'Write the reason down'),
    element('p', { class: 'help' }, group.length > 1 ? `All ${group.length} become notes with that reason.` : 'It becomes a note with that reason.'))
    return element('details', { class: 'silencing' }, element('summary', {}, 'It is meant so …'), form)
  }

  // The reason that is being written while findings are renewed.
  typing() {
    const { activeElement: field } = document
    return field?.dataset?.check ? { check: field.dataset.check, value: field.value } : null
  }

  goOn({ check, value }) {
    const field = by('findings').querySelector(`[data-check="${CSS.escape(check)}"]`)
    if (!field) return
    field.closest('details').open = true
    field.value = value
    field.focus()
  }

  // The finding after or before the one that was last stepped to.
  step(by) {
    const placed = (this.inOrder ?? []).filter(each => each.file)
    if (!placed.length) return tell('There are no findings.')
    this.at = ((this.at ?? (by > 0 ? -1 : 0)) + by + placed.length) % placed.length
    this.chosen(placed[this.at])
    announce(`${words[placed[this.at].severity]}: ${sentence(placed[this.at].message)}`)
  }

  // Sections that say the same keep their elements, so that nobody loses the place.
  text(sections) {
    const box = by('text')
    const old = this.shown
    this.shown = sections.map(each => JSON.stringify(each))
    if (!old.length) box.replaceChildren()
    while (box.children.length > sections.length) box.lastChild.remove()
    sections.forEach((each, index) => {
      if (old[index] === this.shown[index] && box.children[index]) return
      const made = section(each)
      if (box.children[index]) box.children[index].replaceWith(made)
      else box.append(made)
    })
  }
}

function section({ number, title, lines, sources }) {
  const depth = number ? number.split('.').length : 0
  const head = title ? element(`h${Math.min(2 + Math.max(depth, 1), 6)}`, {}, `${number} ${title}`) : null
  return element('section', { class: 'told' }, head, ...lines.map((line, at) => {
    const [file, row, column] = sources[at] ?? []
    return element('p', { 'data-file': file, 'data-line': row, 'data-column': column }, line)
  }))
}

const key = finding => `${finding.id}|${finding.message}`
