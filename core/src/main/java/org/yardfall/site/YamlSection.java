package org.yardfall.site;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;

/**
 * A section of the site file, read key by key. Scalars come as they are written ({@code 007} stays
 * {@code 007}). Keys that nobody asked for are the unknown ones.
 */
final class YamlSection {

  private final String file;
  private final String path;
  private final Problems problems;
  private final Map<String, Node> values = new LinkedHashMap<>();
  private final Map<String, Node> keys = new LinkedHashMap<>();
  private final Set<String> known = new TreeSet<>();

  YamlSection(String file, String path, Node node, Problems problems) {
    this.file = file;
    this.path = path;
    this.problems = problems;
    if (node instanceof MappingNode mapping) {
      for (NodeTuple tuple : mapping.getValue()) {
        String key =
            tuple.getKeyNode() instanceof ScalarNode scalar ? scalar.getValue() : "(not a word)";
        if (values.put(key, tuple.getValueNode()) != null) {
          problems.add(where(key, tuple.getKeyNode()), "the key is given twice", "keep one");
        }
        keys.put(key, tuple.getKeyNode());
      }
    } else if (!isBlank(node)) {
      problems.add(
          where("", node), "a section with keys is expected here", "write it as key: value lines");
    }
  }

  /** A whole file that holds nothing: every key of it is absent. */
  YamlSection(String file, Problems problems) {
    this(file, "", problems);
  }

  private YamlSection(String file, String path, Problems problems) {
    this.file = file;
    this.path = path;
    this.problems = problems;
  }

  /** The section under the key; an empty one where it is absent. */
  YamlSection section(String key) {
    Node node = ask(key);
    return node == null
        ? new YamlSection(file, path(key), problems)
        : new YamlSection(file, path(key), node, problems);
  }

  /** The list of sections under the key, or the section itself as a list of one. */
  List<YamlSection> sections(String key) {
    Node node = ask(key);
    List<YamlSection> sections = new ArrayList<>();
    if (node instanceof SequenceNode sequence) {
      int i = 1;
      for (Node item : sequence.getValue()) {
        sections.add(new YamlSection(file, path(key) + "[" + i++ + "]", item, problems));
      }
    } else if (node != null) {
      sections.add(new YamlSection(file, path(key), node, problems));
    }
    return sections;
  }

  /** Whether the key holds a list. */
  boolean isList(String key) {
    return values.get(key) instanceof SequenceNode;
  }

  /** The keys of the section as written, in their order. */
  List<String> names() {
    return List.copyOf(values.keySet());
  }

  /** Whether the section holds no key. */
  boolean isEmpty() {
    return values.isEmpty();
  }

  /** The scalar under the key as written. */
  Optional<String> text(String key) {
    Node node = ask(key);
    if (node == null) {
      return Optional.empty();
    }
    if (node instanceof ScalarNode scalar) {
      return Optional.of(scalar.getValue().strip());
    }
    problems.add(where(key), "a single value is expected", "write it as " + key + ": value");
    return Optional.empty();
  }

  /** The scalars of the list under the key; a single scalar is a list of one. */
  List<String> texts(String key) {
    if (!(values.get(key) instanceof SequenceNode sequence)) {
      return text(key).map(List::of).orElse(List.of());
    }
    ask(key);
    List<String> texts = new ArrayList<>();
    for (Node item : sequence.getValue()) {
      if (item instanceof ScalarNode scalar && !isBlank(item)) {
        texts.add(scalar.getValue().strip());
      } else {
        problems.add(where(key), "a list of single values is expected", "");
      }
    }
    return texts;
  }

  /** The quantity under the key; a text that is none is a problem. */
  OptionalDouble quantity(String key, ToDoubleFunction<String> parser) {
    Optional<String> text = text(key);
    try {
      return text.isEmpty()
          ? OptionalDouble.empty()
          : OptionalDouble.of(parser.applyAsDouble(text.get()));
    } catch (IllegalArgumentException e) {
      problems.add(where(key), e.getMessage(), "");
      return OptionalDouble.empty();
    }
  }

  /** A problem with the value of the key. */
  void problem(String key, String what, String mend) {
    problems.add(where(key), what, mend);
  }

  /** The file and the key, with its line where it stands in the file. */
  String where(String key) {
    return where(key, keys.get(key));
  }

  /** Says of every key that nobody asked for that it is unknown. */
  void refuseUnknownKeys() {
    for (String key : values.keySet()) {
      if (!known.contains(key)) {
        problems.add(
            where(key),
            "unknown key '" + key + "'",
            Nearest.suggestion(key, known, "the known keys here are " + String.join(", ", known)));
      }
    }
  }

  private Node ask(String key) {
    known.add(key);
    Node node = values.get(key);
    return node == null || isBlank(node) ? null : node;
  }

  private static boolean isBlank(Node node) {
    return node instanceof ScalarNode scalar
        && scalar.getScalarStyle() == org.yaml.snakeyaml.DumperOptions.ScalarStyle.PLAIN
        && (scalar.getValue().isBlank() || scalar.getValue().equals("null"));
  }

  private String where(String key, Node node) {
    String name = path(key);
    String line = node == null ? "" : " (line " + (node.getStartMark().getLine() + 1) + ")";
    return name.isEmpty() ? file + line : file + " " + name + line;
  }

  private String path(String key) {
    return key.isEmpty() ? path : path.isEmpty() ? key : path + "." + key;
  }
}
