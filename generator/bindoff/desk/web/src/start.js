// The first page where no pattern is named: open one of the folder, or begin one with a form.
import { by, element } from './dom.js'
import { ask } from './server.js'

const today = () => {
  const now = new Date()
  const two = number => String(number).padStart(2, '0')
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`
}

const yarns = [
  { name: 'Slate', colour: '#46566b' },
  { name: 'Foam', colour: '#e9eef0' },
]

export function showStart({ patterns, choices }, opened) {
  by('start').hidden = false
  by('work').hidden = true
  by('choose').hidden = !patterns.length
  by('known').replaceChildren(...patterns.map(name => element('li', {},
    element('button', { type: 'button', onclick: () => opened(name) }, name))))
  new Form(by('begin'), choices, opened)
  document.title = 'The desk'
}

class Form {
  constructor(form, choices, opened) {
    this.form = form
    this.choices = choices
    const kinds = choices.kinds.map(each => [each.id, each.name])
    form.replaceChildren(
      fieldset('What it is',
        field('Title', input('title', { required: true, autocomplete: 'off' })),
        field('What you begin with', select('kind', kinds)),
        field('For whom', select('wearer', [])),
        field('Your name', input('designer', { autocomplete: 'name' })),
        field('Where readers can write to you', input('contact', { autocomplete: 'email' }), 'An address or a website. You can leave it for later.'),
        field('Knitting words', select('terms', [['US', 'US: bind off'], ['UK', 'UK: cast off']])),
        field('Units', select('units', [['both', 'centimeters and inches'], ['metric', 'centimeters'], ['imperial', 'inches']])),
      ),
      fieldset('Gauge, over 10 cm (4 in) of the washed swatch',
        field('Stitches', number('stitches')),
        field('Rounds', number('rounds')),
        field('Needle or tension', input('tool')),
        field('Needles of the machine', number('needles', '48')),
      ),
      fieldset('Sizes: bodies, never finished pieces', element('div', { id: 'sizes' }),
        element('button', { type: 'button', onclick: () => this.addSize({ name: '', cm: '' }, true) }, 'Add a size')),
      ...yarns.map((yarn, index) => fieldset(index ? 'Second yarn' : 'Main yarn',
        field('Name', input(`name-${index}`, { value: yarn.name })),
        field('Color', element('input', { name: `colour-${index}`, type: 'color', value: yarn.colour })),
        field('Weight', select(`weight-${index}`, choices.weights.map(each => [String(each.number), `${each.number} ${each.name}`]), '4')),
        field('Fiber', input(`fibre-${index}`, { value: '100 % wool' })),
        field('Grams in a ball', number(`grams-${index}`, '100')),
        field('Meters in a ball', number(`metres-${index}`, '200')),
      )),
      element('div', { id: 'faults', role: 'alert' }),
      element('p', {}, element('button', { type: 'submit', class: 'main' }, 'Begin')),
    )
    form.kind.addEventListener('change', () => this.kindChosen())
    form.wearer.addEventListener('change', () => this.wearerChosen())
    form.onsubmit = async event => {
      event.preventDefault()
      const answer = await ask('begin', { wishes: this.wishes() })
      if (answer.pattern) return opened(answer.pattern)
      const faults = answer.faults ?? [answer.fault ?? 'The desk gave no answer.']
      by('faults').replaceChildren(element('ul', {}, ...faults.map(each => element('li', {}, capital(each)))))
      by('faults').scrollIntoView({ block: 'center' })
    }
    this.kindChosen()
  }

  get kind() {
    return this.choices.kinds.find(each => each.id === this.form.kind.value)
  }

  kindChosen() {
    const { form, kind } = this
    form.stitches.value = kind.stitches
    form.rounds.value = kind.rounds
    form.tool.value = kind.tool
    form.needles.closest('.field').hidden = !kind.machine
    const wearers = Object.keys(kind.sizes)
    form.wearer.replaceChildren(...wearers.map(each => element('option', { value: each }, each)))
    this.wearerChosen()
  }

  wearerChosen() {
    by('sizes').replaceChildren()
    for (const size of this.kind.sizes[this.form.wearer.value]) this.addSize(size)
  }

  addSize({ name, cm }, focus = false) {
    const row = element('div', { class: 'row' },
      field('Size', element('input', { class: 'size-name', value: name, size: '12' })),
      field(`${capital(this.kind.measure)} in cm`, element('input', { class: 'size-cm', value: cm ?? '', size: '6', inputmode: 'decimal' })),
      element('button', { type: 'button', onclick: () => row.remove(), 'aria-label': `Remove size ${name}` }, 'Remove'))
    by('sizes').append(row)
    if (focus) row.querySelector('input').focus()
  }

  wishes() {
    const told = Object.fromEntries(['title', 'designer', 'contact', 'kind', 'wearer', 'terms', 'units', 'stitches', 'rounds', 'tool', 'needles']
      .map(name => [name, this.form.elements[name].value]))
    const sizes = [...this.form.querySelectorAll('.row')].map(row => ({
      name: row.querySelector('.size-name').value, cm: row.querySelector('.size-cm').value,
    }))
    const own = yarns.map((_, index) => Object.fromEntries(['name', 'colour', 'weight', 'fibre', 'grams', 'metres']
      .map(part => [part, this.form.elements[`${part}-${index}`].value])))
    return { ...told, date: today(), sizes, yarns: own }
  }
}

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
