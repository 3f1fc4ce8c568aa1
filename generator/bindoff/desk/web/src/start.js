// The first page where no pattern is named: open one of the folder, or begin one with a form.
import { by, code, element } from './dom.js'
import { ask } from './server.js'

const today = () => {
  const now = new Date()
  const two = number => String(number).padStart(2, '0')
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`
}

export function showStart({ patterns, titles, home, choices, 'read only': frozen }, opened) {
  by('start').hidden = false
  by('work').hidden = true
  by('choose').hidden = !patterns.length
  by('known').replaceChildren(...patterns.map(name => element('li', {},
    element('button', { type: 'button', onclick: () => opened(name) },
      element('strong', {}, titles[name]), ' ', element('span', { class: 'folder' }, name)))))
  by('home').textContent = home
  by('begin-part').hidden = frozen
  by('nothing').hidden = !frozen || patterns.length > 0
  if (!frozen) new Form(by('begin'), choices, opened)
  document.title = 'The desk'
}

class Form {
  constructor(form, choices, opened) {
    this.form = form
    this.choices = choices
    form.replaceChildren(
      fieldset('What it is',
        field('Title', input('title', { required: true, autocomplete: 'off' })),
        field('What you begin with', select('kind', choices.kinds.map(each => [each.id, each.id]))),
        field('For whom', select('wearer', ['adult', 'child', 'infant'].map(each => [each, each]))),
        field('In a sentence or two', input('summary', { size: '60' })),
        field('Your name', input('designer', { autocomplete: 'name' })),
        field('Where readers can write to you', input('contact', { autocomplete: 'email', placeholder: 'can wait' })),
        field('Knitting words', select('terms', [['US', 'US: bind off'], ['UK', 'UK: cast off']])),
        field('Units', select('units', [['both', 'centimeters and inches'], ['metric', 'centimeters'], ['imperial', 'inches']])),
      ),
      fieldset('Gauge, over 10 cm (4 in) of the washed swatch',
        field('Stitches', number('stitches')),
        field('Rounds or rows', number('rounds')),
        field('Needle or tension', input('tool')),
        field('Needles of the machine', number('needles')),
      ),
      fieldset('Sizes: bodies in cm, never finished pieces', element('div', { id: 'sizes', class: 'rows' })),
      fieldset('Yarns', element('div', { id: 'yarns', class: 'rows' })),
      element('div', { id: 'faults', role: 'alert' }),
      element('p', {}, element('button', { type: 'submit', class: 'main' }, 'Begin')),
    )
    form.kind.addEventListener('change', () => this.kindChosen())
    form.onsubmit = async event => {
      event.preventDefault()
      const answer = await ask('begin', { wishes: this.wishes() })
      if (answer.pattern) return opened(answer.pattern)
      this.refused(answer.faults ?? [answer.fault ?? 'The desk gave no answer.'], answer.places ?? [])
    }
    form.addEventListener('input', ({ target }) => this.sound(target))
    this.kindChosen()
  }

  get kind() {
    return this.choices.kinds.find(each => each.id === this.form.kind.value)
  }

  // What is wrong stands below its field, and the first of them has the focus; what is wrong with none
  // stands above the button.
  refused(faults, places) {
    for (const each of this.form.querySelectorAll('[aria-invalid]')) this.sound(each)
    const others = faults.filter((said, at) => !this.wrong(this.at(places[at]), capital(said), `fault-${at}`))
    by('faults').replaceChildren(...others.map(each => element('p', {}, ...code(capital(each)))))
    const [first] = this.form.querySelectorAll('[aria-invalid]')
    if (first) first.focus()
    else by('faults').scrollIntoView({ block: 'center' })
  }

  at(place = '') {
    const [name, row, part] = place.split('/')
    if (row === undefined) return this.form.elements[name]
    return by(name)?.children[row]?.querySelector(`[data-measure="${CSS.escape(part)}"], [data-part="${CSS.escape(part)}"]`)
  }

  wrong(control, said, id) {
    if (!control?.closest('.field')) return false
    control.setAttribute('aria-invalid', 'true')
    control.setAttribute('aria-describedby', id)
    control.closest('.field').append(element('small', { id, class: 'wrong' }, ...code(said)))
    return true
  }

  sound(control) {
    control.removeAttribute('aria-invalid')
    control.removeAttribute('aria-describedby')
    control.closest('.field')?.querySelector('.wrong')?.remove()
  }

  // What stands in the starter, to be written over.
  kindChosen() {
    const { form, kind } = this
    for (const [name, value] of Object.entries(kind.gauge)) form.elements[name].value = value
    form.summary.value = kind.summary
    form.needles.value = kind.needles ?? ''
    form.needles.closest('.field').hidden = !kind.needles
    const measures = ({ measures }) => Object.entries(measures)
    by('sizes').replaceChildren(...kind.sizes.map(size => element('div', { class: 'row size' },
      element('strong', {}, size.name),
      ...measures(size).map(([name, cm]) => field(capital(name),
        element('input', { 'data-measure': name, value: cm, size: '6', inputmode: 'decimal', 'aria-label': `${capital(name)} of size ${size.name} in cm` }))))))
    if (!kind.sizes.some(size => measures(size).length)) {
      by('sizes').replaceChildren(element('p', {}, 'This piece is fitted to no body: its measures stand in the source.'))
    }
    by('yarns').replaceChildren(...kind.yarns.map(yarn => element('div', { class: 'row yarn' },
      field('Name', part('name', yarn.name, { size: '12' })),
      field('Color', part('colour', yarn.colour, { type: 'color' })),
      field('Weight', element('select', { 'data-part': 'weight' }, ...this.choices.weights.map(each =>
        element('option', { value: each.number, selected: each.number === Number(yarn.weight) }, `${each.number} ${each.name}`)))),
      field('Fiber', part('fibre', yarn.fibre, { size: '14' })),
      field('Grams in a ball', part('grams', yarn.grams, { size: '5', inputmode: 'decimal' })),
      field('Meters in a ball', part('metres', yarn.metres, { size: '5', inputmode: 'decimal' })))))
  }

  wishes() {
    const { elements } = this.form
    const names = ['title', 'designer', 'contact', 'summary', 'kind', 'wearer', 'terms', 'units', 'stitches', 'rounds', 'tool', 'needles']
    const told = Object.fromEntries(names.map(name => [name, elements[name].value]))
    const rows = kind => [...this.form.querySelectorAll(`.${kind}`)]
    const table = (row, key) => Object.fromEntries([...row.querySelectorAll(`[data-${key}]`)].map(each => [each.dataset[key], each.value]))
    const sizes = rows('size').map(row => ({ measures: table(row, 'measure') }))
    return { ...told, date: today(), sizes, yarns: rows('yarn').map(row => table(row, 'part')) }
  }
}

const part = (name, value, more = {}) => element('input', { 'data-part': name, value, ...more })
const capital = words => words.charAt(0).toUpperCase() + words.slice(1)
const fieldset = (title, ...fields) => element('fieldset', {}, element('legend', {}, title), ...fields)
const input = (name, attributes = {}) => element('input', { name, ...attributes })
const number = (name, value = '') => input(name, { value, inputmode: 'decimal', size: '6' })

function select(name, options, chosen) {
  return element('select', { name }, ...options.map(([value, words]) =>
    element('option', { value, selected: value === chosen }, words)))
}

function field(title, control, remark) {
  return element('label', { class: 'field' }, element('span', {}, title), control,
    remark ? element('small', {}, remark) : null)
}
