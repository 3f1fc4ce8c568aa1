// The columns: their widths, which are shown where there is room for one or two, and the banner.
import { by, element } from './dom.js'

const names = ['source', 'pages', 'read']
const places = { source: '#editor:not([hidden]) .cm-content, #painter:not([hidden]) [role=gridcell][tabindex="0"]', pages: '#sheets', read: '#read .scroll' }

// `seen(name)` is told which column was brought up.
export function columns(seen) {
  const { body } = document
  const grid = document.querySelector('.columns')

  const one = matchMedia('(max-width: 720px)') // room for one column
  const press = () => {
    const { view } = body.dataset
    const seen = view === 'source' && !one.matches ? 'pages' : view
    for (const button of document.querySelectorAll('.views button')) {
      button.setAttribute('aria-pressed', String(button.dataset.to === seen))
    }
  }
  one.addEventListener('change', press)
  press()

  const show = (name, focus = false) => {
    body.dataset.view = name
    press()
    seen(name)
    if (focus) document.querySelector(places[name]).focus()
  }

  const next = by => {
    const at = names.findIndex(name => document.getElementById(name).contains(document.activeElement))
    show(names[(at + by + names.length) % names.length], true)
  }

  const banner = (words, ...ways) => {
    const box = by('banner')
    box.hidden = !words
    box.replaceChildren(element('p', {}, words), ...ways.map(([name, way]) =>
      element('button', { type: 'button', onclick: way }, name)))
    if (words && !ways.length) box.append(element('button', { type: 'button', onclick: () => banner('') }, 'Close'))
  }

  for (const button of document.querySelectorAll('.views button')) {
    button.onclick = () => show(button.dataset.to)
  }
  menu(by('more'), document.querySelector('.top:has(#more)'))

  for (const border of document.querySelectorAll('.border')) {
    const { of } = border.dataset
    const set = share => {
      const most = Number(border.getAttribute('aria-valuemax'))
      const least = Number(border.getAttribute('aria-valuemin'))
      const kept = Math.round(Math.min(Math.max(share, least), most))
      border.setAttribute('aria-valuenow', kept)
      grid.style.setProperty(`--${of}`, `${kept}%`)
    }
    border.addEventListener('keydown', event => {
      const step = { ArrowLeft: -2, ArrowRight: 2 }[event.key]
      if (!step) return
      event.preventDefault()
      set(Number(border.getAttribute('aria-valuenow')) + (of === 'source' ? step : -step))
    })
    border.addEventListener('pointerdown', event => {
      border.setPointerCapture(event.pointerId)
      const move = ({ clientX }) => {
        const frame = grid.getBoundingClientRect()
        const from = of === 'source' ? clientX - frame.left : frame.right - clientX
        set((from / frame.width) * 100)
      }
      border.addEventListener('pointermove', move)
      border.addEventListener('pointerup', () => border.removeEventListener('pointermove', move), { once: true })
    })
  }

  return { show, next, banner }
}

// What has no room in a narrow top line stands behind a button; a look elsewhere closes it.
function menu(button, top) {
  const open = wanted => button.setAttribute('aria-expanded', String(wanted))
  button.onclick = () => open(button.getAttribute('aria-expanded') === 'false')
  addEventListener('pointerdown', event => { if (!top.contains(event.target)) open(false) })
  top.addEventListener('focusout', event => { if (event.relatedTarget && !top.contains(event.relatedTarget)) open(false) })
  top.addEventListener('keydown', event => {
    if (event.key !== 'Escape' || button.getAttribute('aria-expanded') === 'false') return
    open(false)
    button.focus()
  })
}
