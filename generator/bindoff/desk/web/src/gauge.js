// The gauge field: another gauge is tried on the pages, and the source is left alone until one says
// that it is to be written there.
import { by, element } from './dom.js'

const hint = 'Type another gauge to see what would change.'
const figure = words => words.trim().replace(',', '.')
const same = (one, other) => Number(figure(one.stitches)) === Number(other.stitches) && Number(figure(one.rounds)) === Number(other.rounds)

export class Gauge {
  // `changed()` is told when another gauge is tried, `write(gauges)` when it is to be written.
  constructor({ changed, write }) {
    this.changed = changed
    this.write = write
    this.written = [] // {of, stitches, rounds, over} as the pattern says
    this.tried = new Map() // of -> {stitches, rounds}
    this.stitches = by('gauge-stitches')
    this.rounds = by('gauge-rounds')
    for (const field of [this.stitches, this.rounds]) field.oninput = () => this.typed()
    by('gauge-of').onchange = () => this.draw()
    by('gauge-back').onclick = () => { this.forget(); this.stitches.focus(); this.changed() }
    by('gauge').onsubmit = event => {
      event.preventDefault()
      if (this.trying) this.write(this.stated)
    }
    by('gauge').addEventListener('keydown', event => {
      if (event.key === 'Escape' && this.trying) by('gauge-back').click()
    })
  }

  freeze() {
    by('gauge-write').hidden = true
  }

  // What the pattern says now; a gauge that it has come to say itself is no longer only tried.
  show(written) {
    this.written = written
    by('gauge').hidden = !written.length
    for (const each of written) {
      const tried = this.tried.get(each.of)
      if (tried && same(tried, each)) this.tried.delete(each.of)
    }
    const names = written.map(each => each.of)
    for (const of of this.tried.keys()) if (!names.includes(of)) this.tried.delete(of)
    const select = by('gauge-of')
    if (JSON.stringify([...select.options].map(each => each.value)) !== JSON.stringify(names)) {
      const chosen = select.value
      select.replaceChildren(...names.map(of => element('option', { value: of }, of || 'the pattern')))
      if (names.includes(chosen)) select.value = chosen
    }
    select.closest('label').hidden = names.length < 2
    this.fault('')
    if (!by('gauge').contains(document.activeElement) || !this.trying) this.draw()
    this.state()
  }

  get here() {
    return this.written.find(each => each.of === by('gauge-of').value) ?? this.written[0]
  }

  // The fields of the gauge that is chosen.
  draw() {
    const { here } = this
    if (!here) return
    const { stitches, rounds } = this.tried.get(here.of) ?? here
    if (this.stitches !== document.activeElement || !this.trying) this.stitches.value = stitches
    if (this.rounds !== document.activeElement || !this.trying) this.rounds.value = rounds
    by('gauge-over').textContent = `over ${here.over}`
    this.state()
  }

  typed() {
    const { here } = this
    if (!here) return
    const tried = { stitches: this.stitches.value, rounds: this.rounds.value }
    if (same(tried, here)) this.tried.delete(here.of)
    else this.tried.set(here.of, tried)
    this.state()
    this.changed()
  }

  get trying() {
    return this.tried.size > 0
  }

  // As the server takes them: 22 x 30 / 10 cm, with the size or gauge that it is of before it.
  get stated() {
    return [...this.tried].map(([of, { stitches, rounds }]) => {
      const { over } = this.written.find(each => each.of === of)
      return `${of ? `${of} = ` : ''}${figure(stitches)} x ${figure(rounds)} / ${over}`
    })
  }

  forget() {
    this.tried.clear()
    this.fault('')
    this.draw()
  }

  fault(words) {
    this.wrong = words
    for (const field of [this.stitches, this.rounds]) field.setAttribute('aria-invalid', String(Boolean(words)))
    this.state()
  }

  state() {
    by('gauge').dataset.trying = String(this.trying)
    by('gauge-ways').hidden = !this.trying
    by('gauge-write').disabled = Boolean(this.wrong)
    by('gauge-said').textContent = this.wrong ? `${this.wrong}.`
      : this.trying ? 'Only tried: pages, findings and changes show it, the source does not say it.' : hint
  }
}
