// Sentences that no check can prove, to be read once more and ticked off.
import { announce, by, code, count, element } from './dom.js'
import { sentence } from './editor.js'
import { ask, client } from './server.js'

const idle = 1200 // ms after a build without another: the list is never waited for
const today = () => new Date().toLocaleDateString('sv') // year-month-day

export class Reread {
  // `chosen(place)` is told which place is to be shown.
  constructor({ chosen, fault }) {
    this.chosen = chosen
    this.fault = fault
    this.pattern = ''
    this.source = ''
    this.list = null
    this.frozen = false
    by('reread-done').onchange = () => this.draw()
  }

  // The list of what has been built is asked for when nothing else is.
  soon(still) {
    clearTimeout(this.timer)
    this.timer = setTimeout(async () => {
      if (!still()) return
      const told = await ask('reread', { client, pattern: this.pattern })
      if (still()) this.take(told)
    }, this.list ? idle : 0)
  }

  take({ heading, asked, fault }) {
    if (fault) {
      if (fault !== this.told) this.fault(fault)
      this.told = fault
      return false
    }
    if (!asked) return false
    this.told = ''
    const same = JSON.stringify(asked) === JSON.stringify(this.list)
    this.list = asked
    this.heading = heading
    if (!same) this.draw()
    return true
  }

  async tick(item, box) {
    const open = [...by('reread').querySelectorAll('[data-digest]')]
    const at = open.indexOf(box)
    const done = await this.took(item, box.checked)
    if (!done) return
    const left = this.list.filter(each => !each.read).length
    announce(box.checked ? `Read. ${left ? `${left} to go.` : 'All are read.'}` : 'To be read again.')
    const next = [...by('reread').querySelectorAll('[data-digest]')]
    const same = next.find(each => each.dataset.digest === item.digest)
    ;(same ?? next[Math.min(at, next.length - 1)] ?? by('reread-title')).focus()
  }

  async took({ digest }, read) {
    const told = await ask('reread', { client, pattern: this.pattern, do: read ? 'tick' : 'untick', digest, date: today() })
    if (this.take(told)) return true
    this.draw() // the box shows again what is kept
    return false
  }

  draw() {
    const open = this.list.filter(each => !each.read)
    const seen = by('reread-done').checked ? this.list : open
    const held = document.activeElement?.closest('#reread')?.contains(document.activeElement)
      ? document.activeElement.dataset : null
    by('reread').replaceChildren(...seen.map((each, at) => this.one(each, at)))
    if (held) this.goOn(held)
    by('reread-said').textContent = open.length
      ? 'No check can prove what these sentences say. They may well be right: read each against your work, and tick it off. A sentence that you change is asked about again.'
      : this.list.length ? 'You have read all of them.' : this.heading
    by('reread-count').textContent = this.list.length ? `– ${open.length} of ${count(this.list.length, 'sentence')}` : ''
    by('reread-done').closest('label').hidden = open.length === this.list.length
  }

  one(item, at) {
    const [whole, ...claims] = item.claims
    const id = `reread-${at}`
    const place = `line ${whole.from[0]}${whole.file === this.source ? '' : ` of ${whole.file}`}`
    const box = element('input', {
      type: 'checkbox', checked: item.read, disabled: this.frozen, 'data-digest': item.digest,
      'aria-describedby': id, onchange: () => this.tick(item, box),
    })
    return element('div', { class: item.read ? 'asked done' : 'asked' },
      element('button', { type: 'button', class: 'finding', 'data-jump': item.digest, onclick: () => this.chosen(claims[0] ?? whole) },
        element('span', { class: 'said', id }, ...item.parts.map(([words, claim]) => claim ? element('mark', {}, words) : words))),
      element('p', { class: 'help' }, ...code(sentence(item.whys.join('; ')))),
      element('p', { class: 'where' },
        element('label', {}, box, 'I have read it'), element('span', {}, place)))
  }

  // Whoever is in the list while it is renewed stays at the same sentence.
  goOn({ digest, jump }) {
    const name = digest ? `[data-digest="${digest}"]` : `[data-jump="${jump}"]`
    if (digest || jump) by('reread').querySelector(name)?.focus()
  }
}
