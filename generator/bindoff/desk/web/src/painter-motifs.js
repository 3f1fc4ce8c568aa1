// Motifs on the map of a tube: dragged to another place, or moved by a form. The server works out the
// change of the source, so that only what says their place is written anew.
import { by, count, dialog, element } from './dom.js'
import { action, amount } from './painter-tools.js'

export class Motifs {
  // `write(wishes, said)` asks for the change and makes it.
  constructor({ pages, frozen, write }) {
    this.pages = pages
    this.frozen = frozen
    this.write = write
    const { sheets } = pages
    sheets.addEventListener('pointerdown', event => this.press(event))
    sheets.addEventListener('pointermove', event => this.drag(event))
    for (const end of ['pointerup', 'pointercancel']) sheets.addEventListener(end, event => this.drop(event, end))
    // A drag is no click on what lies where it ends.
    sheets.addEventListener('click', event => {
      if (!this.dragged) return
      this.dragged = false
      event.stopPropagation()
    }, true)
  }

  press(event) {
    const region = this.pages.at(event)
    if (this.frozen || event.button || event.ctrlKey || event.metaKey || !region?.motif) return
    event.preventDefault()
    this.held = { motif: region.motif, region, x: event.clientX, y: event.clientY }
  }

  drag(event) {
    const { held } = this
    if (!held) return
    const { motif, region } = held
    const scale = this.pages.list[region.page].firstChild.getBoundingClientRect().width / this.pages.wide(region.page)
    const across = Math.round((held.x - event.clientX) / scale / motif.w) // stitches are counted to the left
    const up = Math.round((held.y - event.clientY) / scale / motif.h)
    if (!held.ghost && !across && !up) return
    if (!held.ghost) {
      this.pages.sheets.setPointerCapture(event.pointerId)
      held.ghost = this.pages.box(region, 'mark ghost')
    }
    Object.assign(held, aimed(motif, across, up))
    const share = (part, whole) => `${(part / whole) * 100}%`
    held.ghost.style.left = share(motif.box[0] - held.across * motif.w - 4, this.pages.wide(region.page))
    held.ghost.style.top = share(motif.box[1] - held.up * motif.h - 2, this.pages.high(region.page))
    held.ghost.textContent = said(motif, held)
  }

  drop(event, end) {
    const { held } = this
    this.held = null
    if (!held?.ghost) return
    held.ghost.remove()
    this.dragged = end === 'pointerup'
    setTimeout(() => { this.dragged = false })
    if (end === 'pointerup' && (held.rounds !== held.motif.rounds || held.at !== held.motif.at)) this.move(held.motif, held)
  }

  move(motif, { rounds, at }) {
    this.write({
      piece: motif.piece, motif: motif.motif,
      rounds: rounds === motif.rounds ? null : rounds, at: at === motif.at ? null : at,
    }, `${motif.title}: ${said(motif, { rounds, at })}.`)
  }

  // The same by a form.
  ask(motif, toSource, toBoard) {
    const wish = { rounds: motif.rounds, at: motif.at }
    const names = [...new Set(motif.places.map(([name]) => name))]
    const where = names.length
      ? element('label', { class: 'amount' }, element('span', {}, 'Where'),
        element('select', { onchange: event => { wish.at = event.target.value } },
          ...names.map(name => element('option', { value: name, selected: name === motif.at }, name))))
      : typeof motif.at === 'number' ? amount('First stitch', motif.at, '1', value => { wish.at = inside(value, 1, motif.stitches) }) : null
    const height = amount(`Rounds ${motif.key}`, motif.rounds, '1', value => { wish.rounds = inside(value, 0, motif.most) })
    dialog(`Place of ${motif.title}`,
      element('p', {}, `Now: ${motif.place}, ${said(motif, { rounds: motif.rounds })}. There is room for up to ${count(motif.most, 'round')}.`),
      element('p', { class: 'numbers' }, where, height),
      element('p', {}, this.frozen ? null : action('Move it', () => {
        by('dialog').close()
        if (wish.rounds !== motif.rounds || wish.at !== motif.at) this.move(motif, wish)
      }), ' ', action('Paint its chart', () => {
        by('dialog').close()
        toBoard()
      }), ' ', action('Go to its source', () => {
        by('dialog').close()
        toSource()
      })))
    ;(by('dialog').querySelector('select') ?? height.querySelector('input')).focus()
  }
}

const inside = (value, least, most) => Math.min(Math.max(Math.round(value), least), most)

// Where a motif lands that is moved so many stitches and rounds: at the nearest of its places.
function aimed(motif, across, up) {
  const rounds = inside(motif.rounds + (motif.key === 'below top' ? -up : up), 0, motif.most)
  const landed = motif.key === 'below top' ? motif.rounds - rounds : rounds - motif.rounds
  if (typeof motif.at === 'number') {
    const at = inside(motif.at + across, 1, motif.stitches)
    return { rounds, at, up: landed, across: at - motif.at }
  }
  if (!motif.places.length) return { rounds, at: motif.at, up: landed, across: 0 }
  const far = middle => {
    const apart = Math.abs(motif.middle + across - middle) % motif.needles
    return Math.min(apart, motif.needles - apart)
  }
  const [at] = motif.places.reduce((one, other) => (far(other[1]) < far(one[1]) ? other : one))
  return { rounds, at, up: landed, across }
}

function said(motif, { rounds, at }) {
  const where = at == null ? '' : typeof at === 'number' ? `from stitch ${at}, ` : `at ${at}, `
  return `${where}${count(rounds, 'round')} ${motif.key}`
}
