// A chart begun by a form: the server gives an empty grid and the lines that name it in the source, and
// both are taken as if they had been written here.
import { by, code, dialog, element } from './dom.js'
import { ask, client } from './server.js'

export class NewChart {
  // `begun(made)` takes the new file and the changes of the source.
  constructor({ begun }) {
    this.begun = begun
    by('new-chart').onclick = () => this.open()
  }

  async open() {
    const offered = await ask('chart', { client })
    if (!offered.yarns) {
      dialog('New chart', element('p', {}, 'The pattern has to build once before a chart can be begun in it.'))
      return
    }
    const faults = element('div', { class: 'paste-fault', role: 'alert' })
    const form = element('form', { class: 'new-chart', novalidate: true },
      field('Title', element('input', { name: 'title', size: '28', autocomplete: 'off', required: true })),
      field('What it shows, in a sentence, for those who can’t see it', element('input', { name: 'alt', size: '46', autocomplete: 'off', required: true })),
      element('p', { class: 'numbers' },
        field('Stitches', number('stitches', 24)), field('Rounds or rows', number('rounds', 24))),
      fieldset('Yarns it is painted with', ticks('yarn', offered.yarns)),
      fieldset('Stitches it is painted with', ticks('stitch', offered.stitches),
        field('Others, as rows write them, with commas between', element('input', { name: 'others', size: '28', autocomplete: 'off', spellcheck: 'false' }))),
      element('p', { class: 'hint' }, 'The first that is chosen fills the new grid.'),
      faults,
      element('p', {}, element('button', { type: 'submit', class: 'main' }, 'Begin the chart')))
    form.onsubmit = async event => {
      event.preventDefault()
      const made = await ask('chart', { client, wishes: wishes(form) })
      if (made.file) {
        by('dialog').close()
        this.begun(made)
        return
      }
      const told = made.faults ?? [made.fault ?? 'The desk gave no answer.']
      faults.replaceChildren(element('ul', {}, ...told.map(each => element('li', {}, ...code(each.charAt(0).toUpperCase() + each.slice(1))))))
    }
    dialog('New chart', form)
    form.elements.title.focus()
  }
}

function wishes(form) {
  const { title, alt, stitches, rounds, others } = form.elements
  const ticked = [...form.querySelectorAll('input[type=checkbox]:checked')].map(each => each.value)
  return {
    title: title.value, alt: alt.value, stitches: stitches.value, rounds: rounds.value,
    legend: [...ticked, ...others.value.split(',')],
  }
}

const number = (name, value) => element('input', { name, value, size: '5', inputmode: 'numeric', autocomplete: 'off' })
const field = (words, control) => element('label', { class: 'field' }, element('span', {}, words), control)
const fieldset = (words, ...inside) => element('fieldset', {}, element('legend', {}, words), ...inside)

const ticks = (kind, offered) => element('div', { class: 'ticks' }, ...offered.map(({ key, name, colour }) => {
  const spot = colour ? element('span', { class: 'spot', 'aria-hidden': 'true' }) : null
  if (spot) spot.style.background = colour
  return element('label', { class: 'tick' }, element('input', { type: 'checkbox', name: kind, value: key }), ' ', spot, name)
}))
