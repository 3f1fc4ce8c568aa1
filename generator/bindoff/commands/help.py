"""``bindoff help``: what may be written, topic by topic or key by key."""

import click

from bindoff.commands.shared import say, stop


@click.command(name="help")
@click.argument("word", nargs=-1, metavar="[TOPIC or KEY]")
def command(word: tuple[str, ...]) -> None:
    """Explain a TOPIC or a KEY of pattern.yaml, each key with lines that work; the list of topics
    without one."""
    from bindoff.diagnostics import closest
    from bindoff.guide.keys import groups, named, taking
    from bindoff.guide.lines import helper_lines, key_lines, topic_lines
    from bindoff.guide.topics import TOPICS

    asked = " ".join(word).lower()
    asked = next((each.name for each in TOPICS if asked in each.about), asked)
    if not asked:
        width = max(len(each.name) for each in TOPICS)
        say("\n".join(f"bindoff help {each.name:<{width}}   {each.title}" for each in TOPICS))
        say("bindoff help KEY: what a key says, such as `bindoff help cast on`")
        return
    topic = next((each for each in TOPICS if each.name == asked), None)
    keys = named(asked) or taking(asked)
    helper = helper_lines(asked)
    if topic is not None:
        say("\n".join(topic_lines(topic)))
    elif keys:
        say("\n".join(key_lines(keys)))
    elif helper:
        say("\n".join(helper))
    else:
        known = [each.name for each in TOPICS]
        known += [key.key for group in groups().values() for key in group.keys]
        near = closest(asked, sorted(set(known)))
        help = f"Ask `bindoff help {near}`" if near else "List the topics with `bindoff help`"
        stop(f"there is no topic or key `{asked}`", help)
