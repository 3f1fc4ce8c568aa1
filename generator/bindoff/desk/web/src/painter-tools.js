// What stands above the board: brushes, tools, and panels with what can be done.
import { element } from './dom.js'
import { drawMark, groundOf, inkOn, markFont } from './painter-cells.js'

const SWATCH = 22 // px

// A choice of one among several, worked with the arrow keys as the browser does it.
export function choice(name, label, options, chosen, picked) {
  return element('fieldset', { class: `choice ${name}` }, element('legend', { class: 'unseen' }, label),
    ...options.map(({ value, words, mark, title }) => {
      const input = element('input', {
        type: 'radio', name, value, class: 'unseen', checked: value === chosen, onchange: () => picked(value),
      })
      return element('label', { class: 'chip', title }, input, mark, element('span', {}, words))
    }))
}

// A small picture of a cell, for the brush that paints it.
export function swatch(entry, sign, symbols, paper, ink) {
  const dots = devicePixelRatio || 1
  const canvas = element('canvas', { class: 'swatch', width: SWATCH * dots, height: SWATCH * dots, 'aria-hidden': 'true' })
  const context = canvas.getContext('2d')
  context.scale(dots, dots)
  const ground = groundOf(entry, paper)
  context.fillStyle = ground
  context.fillRect(0, 0, SWATCH, SWATCH)
  context.font = markFont(SWATCH)
  context.textAlign = 'center'
  context.textBaseline = 'middle'
  const coloured = entry?.colour || entry?.shade
  const wide = entry?.wide ?? 1
  const box = { x: 0, y: 0, w: SWATCH / wide, h: SWATCH }
  for (let part = 0; part < (symbols && entry?.drawn ? wide : 1); part++) {
    drawMark(context, entry, sign, { ...box, x: symbols && entry?.drawn ? part * box.w : 0, w: symbols && entry?.drawn ? box.w : SWATCH }, coloured ? inkOn(ground) : ink, symbols, part)
  }
  return canvas
}

// Buttons that each open a panel below them, one at a time.
export class Panels {
  constructor(panels) {
    this.heads = panels.map(({ name, title }) => element('button', {
      type: 'button', 'aria-expanded': 'false', 'aria-controls': `panel-${name}`, 'data-panel': name,
      onclick: () => this.open(this.shown === name ? '' : name),
    }, title))
    this.bodies = panels.map(({ name, title, body }) => element('div', {
      id: `panel-${name}`, class: 'panel', role: 'group', 'aria-label': title, hidden: true,
    }, ...body))
    this.shown = ''
    for (const body of this.bodies) {
      body.addEventListener('keydown', event => {
        if (event.key !== 'Escape') return
        const head = this.heads.find(each => each.dataset.panel === this.shown)
        this.open('')
        head.focus()
      })
    }
  }

  open(name) {
    this.shown = name
    for (const head of this.heads) head.setAttribute('aria-expanded', String(head.dataset.panel === name))
    for (const body of this.bodies) body.hidden = body.id !== `panel-${name}`
  }
}

export const action = (words, done, attributes = {}) =>
  element('button', { type: 'button', onclick: done, ...attributes }, words)

export function tick(words, on, changed) {
  return element('label', { class: 'tick' }, element('input', {
    type: 'checkbox', checked: on, onchange: event => changed(event.target.checked),
  }), ` ${words}`)
}

export function amount(words, value, step, changed) {
  const input = element('input', { type: 'number', step, value, size: '5', onchange: event => changed(Number(event.target.value) || 0) })
  return element('label', { class: 'amount' }, element('span', {}, words), input)
}
