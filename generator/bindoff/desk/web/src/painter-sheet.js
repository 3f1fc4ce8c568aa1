// Cells that were copied in a spreadsheet, or lines that were copied here or in an editor.
import { readPage } from './server.js'

// What a clipboard holds: each row a list of { value, fill }.
export function cellsOf(data) {
  const page = data.getData('text/html')
  const text = data.getData('text/plain').replace(/\r\n?/g, '\n').replace(/\n$/, '')
  return (page && tableOf(page)) || textCells(text)
}

// Tabs part the cells of a spreadsheet; without any, every character is a cell.
export function textCells(text) {
  const lines = text.split('\n')
  const parted = text.includes('\t')
  return lines.map(line => (parted ? line.split('\t') : [...line]).map(value => ({ value, fill: '' })))
}

// The first table of a page, with the colours that its cells are filled with.
function tableOf(page) {
  // Styles are read and never applied, which the page's security policy would refuse to a copied text.
  const read = readPage(page
    .replace(/(<\/?)style\b/gi, '$1textarea').replace(/ style *=/gi, ' data-style='))
  const table = read.querySelector('table')
  if (!table) return null
  const rules = new Map()
  for (const style of read.querySelectorAll('textarea')) {
    for (const [, name, body] of style.textContent.matchAll(/\.([\w-]+)\s*\{([^{}]*)\}/g)) rules.set(name, body)
  }
  const rows = [...table.rows].map(row => [...row.cells].flatMap(cell => {
    const styles = [cell.dataset.style ?? '', ...[...cell.classList].map(name => rules.get(name) ?? '')]
    const fill = [...styles.map(filled), hex(cell.getAttribute('bgcolor') ?? '')].find(Boolean) ?? ''
    const made = { value: cell.textContent.trim(), fill }
    return Array.from({ length: Math.min(cell.colSpan, 200) }, (_, at) => (at ? { ...made, value: '' } : made))
  }))
  return rows.length && rows.some(row => row.length) ? rows : null
}

function filled(style) {
  for (const rule of style.split(';')) {
    const at = rule.indexOf(':')
    if (/^\s*background(-color)?\s*$/i.test(rule.slice(0, at))) return hex(rule.slice(at + 1))
  }
  return ''
}

// A colour as #rrggbb, or nothing.
function hex(said) {
  const colour = said.trim().toLowerCase()
  if (/^#[0-9a-f]{6}$/.test(colour)) return colour
  if (/^#[0-9a-f]{3}$/.test(colour)) return `#${[...colour.slice(1)].map(each => each + each).join('')}`
  const parts = colour.match(/^rgb\((\d{1,3}), ?(\d{1,3}), ?(\d{1,3})\)$/)
  if (parts) return `#${parts.slice(1).map(each => Number(each).toString(16).padStart(2, '0')).join('')}`
  return names[colour] ?? ''
}

// The names that spreadsheets write for colours (CSS Color 4, the first sixteen and orange).
const names = {
  black: '#000000', silver: '#c0c0c0', gray: '#808080', white: '#ffffff', maroon: '#800000', red: '#ff0000',
  purple: '#800080', fuchsia: '#ff00ff', green: '#008000', lime: '#00ff00', olive: '#808000', yellow: '#ffff00',
  navy: '#000080', blue: '#0000ff', teal: '#008080', aqua: '#00ffff', orange: '#ffa500',
}
