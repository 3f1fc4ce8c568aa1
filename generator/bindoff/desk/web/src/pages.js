// The pages column: pictures of the pages, of which only changed ones are fetched, and the regions
// that lead from a place on a page to the source and back.
import { by, element } from './dom.js'
import { cellThere, cellUnder, cellsOfMotifs, cellsShown, withCharts } from './painter-places.js'
import { patched, picture } from './server.js'

const within = ([line, column], { from, to }) =>
  (line > from[0] || (line === from[0] && column >= from[1])) &&
  (line < to[0] || (line === to[0] && column <= to[1]))

const extent = ({ from, to }) => (to[0] - from[0]) * 1000 + to[1] - from[1]

export class Pages {
  // `chosen(region, take)` is told of a place that was clicked; `take` asks for its source.
  // `cellOf(file, at)` is the cell of a grid at a place of its file.
  constructor({ chosen, cellOf }) {
    this.chosen = chosen
    this.cellOf = cellOf
    this.charts = []
    this.sheets = by('sheets')
    this.list = [] // the sheets in their order
    this.old = [] // those of an earlier version, beside them
    this.regions = []
    this.unseen = [] // what was marked while the column had no room
    this.turn = 0
    this.walked = -1
    this.sheets.addEventListener('click', event => this.click(event))
    this.sheets.addEventListener('keydown', event => this.key(event))
  }

  // Show the pages of an answer; those that are the same keep their elements.
  async show({ pages, patches, regions, cells, motifs }) {
    const turn = ++this.turn
    this.patch(pages, patches)
    this.regions = withCharts(regions, cells, motifs)
    this.charts = cells
    this.walked = -1
    await this.draw(this.list, pages, 'Page', () => turn === this.turn)
    this.flags(this.flagged ?? [])
    return turn === this.turn
  }

  // Of a page that differs a little, only that is put in; what else it has stays as it is painted.
  patch(pages, patches) {
    for (const [index, { digest }] of pages.entries()) {
      const { dataset, firstChild } = this.list[index] ?? {}
      const patch = patches[digest]
      if (patch && dataset?.digest === patch.of && patched(firstChild.firstChild, patch)) dataset.digest = digest
    }
  }

  // The pages of an earlier version, for whoever looks at both.
  async earlier(pages) {
    this.before = pages
    const shown = by('beside').checked ? pages : []
    this.sheets.classList.toggle('beside', shown.length > 0)
    await this.draw(this.old, shown, 'Earlier page', () => this.before === pages)
  }

  beside() {
    return this.earlier(this.before ?? [])
  }

  async draw(sheets, pages, name, still) {
    while (sheets.length > pages.length) sheets.pop().remove()
    while (sheets.length < pages.length) {
      const paper = element('div', { class: 'paper', role: 'img' })
      const sheet = element('div', { class: sheets === this.old ? 'sheet old' : 'sheet' }, paper, element('div', { class: 'marks flags' }), element('div', { class: 'marks' }))
      sheets.push(sheet)
    }
    const waiting = []
    for (const [index, { digest, width, height }] of pages.entries()) {
      const sheet = sheets[index]
      sheet.style.setProperty('--wide', width)
      sheet.style.setProperty('--high', height)
      sheet.firstChild.setAttribute('aria-label', `${name} ${index + 1} of ${pages.length}`)
      if (sheet.dataset.digest !== digest) waiting.push([sheet, digest])
    }
    this.arrange()
    // What is in sight comes first.
    const middle = this.sheets.scrollTop + this.sheets.clientHeight / 2
    const far = sheet => Math.abs(sheet.offsetTop + sheet.offsetHeight / 2 - middle)
    waiting.sort(([one], [other]) => far(one) - far(other))
    await Promise.all(waiting.map(async ([sheet, digest]) => {
      const svg = await picture(digest)
      if (!still() || !svg) return
      svg.setAttribute('aria-hidden', 'true')
      sheet.firstChild.replaceChildren(svg)
      sheet.dataset.digest = digest
    }))
    for (const [index, sheet] of this.list.entries()) {
      const old = this.old[index]
      sheet.classList.toggle('other', Boolean(this.old.length) && old?.dataset.digest !== sheet.dataset.digest)
    }
  }

  // Sheets in the order in which they are read, an earlier one before its later one; only what
  // stands elsewhere is moved.
  arrange() {
    const pairs = Array.from({ length: Math.max(this.list.length, this.old.length) }, (_, index) => {
      const pair = [this.old[index], this.list[index]]
      return this.old.length ? pair.map(each => each ?? element('div', { class: 'nothing' })) : pair
    })
    for (const each of this.sheets.querySelectorAll('.nothing')) each.remove()
    let at = this.sheets.firstChild
    for (const sheet of pairs.flat().filter(Boolean)) {
      if (sheet === at) at = at.nextSibling
      else this.sheets.insertBefore(sheet, at)
    }
  }

  zoom(value) {
    const middle = this.sheets.scrollTop + this.sheets.clientHeight / 2
    const share = middle / Math.max(this.sheets.scrollHeight, 1)
    this.sheets.dataset.zoom = value
    this.sheets.style.setProperty('--zoom', Number(value) || 1)
    this.sheets.scrollTop = share * this.sheets.scrollHeight - this.sheets.clientHeight / 2
  }

  wide(page) {
    return Number(this.list[page].style.getPropertyValue('--wide'))
  }

  high(page) {
    return Number(this.list[page].style.getPropertyValue('--high'))
  }

  // ------------------------------------------------------------ from a page to the source

  at(event) {
    const sheet = event.target.closest('.sheet')
    if (!sheet) return null
    const page = this.list.indexOf(sheet)
    const frame = sheet.firstChild.getBoundingClientRect()
    const scale = Number(sheet.style.getPropertyValue('--wide')) / frame.width
    const x = (event.clientX - frame.left) * scale
    const y = (event.clientY - frame.top) * scale
    const cell = cellThere(this.charts, page, x, y)
    if (cell) return cell
    const hit = this.regions.filter(({ page: own, box: [left, top, right, bottom] }) =>
      own === page && x >= left && x <= right && y >= top && y <= bottom)
    const [least] = hit.sort((one, other) => area(one) - area(other))
    return least?.motif ? { ...least, aimed: cellUnder(least, x, y) } : least ?? null
  }

  click(event) {
    const href = event.target.closest('[data-href]')?.dataset.href
    if (href?.startsWith('#')) {
      const place = [...this.sheets.querySelectorAll('path[id]')].find(each => `#${each.id}` === href)
      if (place) this.reveal(place)
      return
    }
    if (href && /^(https?:|mailto:)/.test(href)) {
      open(href, '_blank', 'noopener')
      return
    }
    if (String(getSelection())) return // words are being selected
    const region = this.at(event)
    if (!region) return
    this.mark([region])
    const touched = event.pointerType === 'touch' && region.motif // a finger that drags moves the page
    this.chosen(region, event.ctrlKey || event.metaKey || Boolean(touched))
  }

  // ------------------------------------------------------------ from the source to a page

  // Mark what a place of the source shows; scroll only if none of it is in sight.
  follow({ file, at }) {
    const cell = this.cellOf(file, at)
    const narrow = cell
      ? [...cellsShown(this.charts, file, cell), ...cellsOfMotifs(this.regions, file, cell)]
      : this.narrow(file, at)
    this.mark(narrow)
    return narrow
  }

  // The regions of the smallest part of the source that holds a place.
  narrow(file, at) {
    const hit = this.regions.filter(each => each.file === file && within(at, each))
    const least = Math.min(...hit.map(extent))
    return hit.filter(each => extent(each) === least)
  }

  // A small number beside the place of each comment.
  flags(comments) {
    this.flagged = comments
    for (const sheet of this.list) sheet.children[1].replaceChildren()
    for (const { id, file, from, gone } of comments) {
      const [place] = gone ? [] : this.narrow(file, from)
      if (!place) continue
      const flag = this.box(place, 'flag', 'div', { 'aria-hidden': 'true' }, 1)
      flag?.append(element('span', {}, String(id)))
    }
  }

  mark(regions, scroll = true) {
    for (const sheet of this.list) sheet.lastChild.replaceChildren()
    const marks = regions.map(region => this.box(region, 'mark')).filter(Boolean)
    this.unseen = this.sheets.clientHeight ? [] : regions
    if (!scroll || !marks.length) return
    const frame = this.sheets.getBoundingClientRect()
    const seen = marks.some(each => {
      const box = each.getBoundingClientRect()
      return box.bottom > frame.top && box.top < frame.bottom
    })
    if (!seen) this.reveal(marks[0])
  }

  // The column has come up: what was marked before is brought into sight.
  comeUp() {
    if (this.unseen.length) this.mark(this.unseen)
  }

  reveal(mark) {
    const frame = this.sheets.getBoundingClientRect()
    const box = mark.getBoundingClientRect()
    this.sheets.scrollTop += box.top - frame.top - (frame.height - Math.min(box.height, frame.height)) / 2
  }

  box({ page, box: [left, top, right, bottom] }, kind, name = 'div', attributes = {}, layer = 2) {
    const sheet = this.list[page]
    if (!sheet) return null
    const wide = Number(sheet.style.getPropertyValue('--wide'))
    const high = Number(sheet.style.getPropertyValue('--high'))
    const made = element(name, { class: kind, ...attributes })
    const share = (part, whole) => `${(part / whole) * 100}%`
    made.style.left = share(left - 4, wide)
    made.style.top = share(top - 2, high)
    made.style.width = share(right - left + 8, wide)
    made.style.height = share(bottom - top + 4, high)
    sheet.children[layer].append(made)
    return made
  }

  // ------------------------------------------------------------ by keyboard

  key(event) {
    const step = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 }[event.key]
    if (this.walked < 0) {
      if (event.key !== 'Enter' || !this.regions.length) return
      event.preventDefault()
      const frame = this.sheets.getBoundingClientRect()
      const page = this.list.findIndex(each => each.getBoundingClientRect().bottom > frame.top + 40)
      this.walk(Math.max(this.regions.findIndex(each => each.page >= page), 0))
    } else if (step) {
      event.preventDefault()
      this.walk(Math.min(Math.max(this.walked + step, 0), this.regions.length - 1))
    } else if (event.key === 'Enter') {
      event.preventDefault()
      const region = this.regions[this.walked]
      this.stopWalking()
      this.chosen(region, true)
    } else if (event.key === 'Escape') {
      this.stopWalking()
      this.sheets.focus()
    }
  }

  walk(index) {
    this.walked = index
    const region = this.regions[index]
    this.mark([])
    const said = `Page ${region.page + 1}, ${region.name ?? `line ${region.from[0]} of ${region.file}`}. ${index + 1} of ${this.regions.length}`
    const button = this.box(region, 'mark walker', 'button', { type: 'button', tabindex: '-1', 'aria-label': said })
    button.focus({ preventScroll: true })
    this.reveal(button)
    this.chosen(region, false)
  }

  stopWalking() {
    this.walked = -1
    this.mark([])
  }
}

const area = ({ box: [left, top, right, bottom] }) => (right - left) * (bottom - top)
