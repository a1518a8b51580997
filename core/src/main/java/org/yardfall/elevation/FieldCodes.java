package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import org.yardfall.site.ShotRole;

/**
 * What shots stand for by the user's own field codes.
 *
 * <p>A shot's code is the first word of its description. It is looked up as it is ({@code EP2}),
 * else by the letters with which it begins ({@code EP}), capital or not; a shot without a known
 * code is a point on the ground. Shots of one code and number, or of one code followed by a number
 * ({@code EP 2}), make one line in the file's order. The further words {@code start}, {@code end}
 * and {@code close} begin a line, end it, or lead it back to its first shot.
 */
final class FieldCodes {

  private final Map<String, ShotRole> roles = new TreeMap<>(String.CASE_INSENSITIVE_ORDER);

  FieldCodes(Map<String, ShotRole> roles) {
    this.roles.putAll(roles);
  }

  /** What a shot stands for. */
  ShotRole role(Shot shot) {
    String word = words(shot)[0];
    ShotRole exact = roles.get(word);
    return exact != null ? exact : roles.getOrDefault(letters(word), ShotRole.GROUND);
  }

  /** The shots that stand for something, in their order. */
  List<Shot> of(List<Shot> shots, ShotRole role) {
    return shots.stream().filter(shot -> role(shot) == role).toList();
  }

  /** Codes of the table that no shot carries. */
  List<String> unused(List<Shot> shots) {
    TreeSet<String> unused = new TreeSet<>(roles.keySet());
    TreeSet<String> seen = new TreeSet<>(String.CASE_INSENSITIVE_ORDER);
    for (Shot shot : shots) {
      String word = words(shot)[0];
      seen.add(word);
      seen.add(letters(word));
    }
    unused.removeIf(seen::contains);
    return List.copyOf(unused);
  }

  /**
   * The lines that shots of a role make, in the order in which they begin.
   *
   * @param longestM shots further apart than this are not joined, in metres
   * @param parted takes the shots before which a line was parted for that
   */
  List<List<Shot>> lines(List<Shot> shots, ShotRole role, double longestM, List<Shot> parted) {
    Map<String, List<Shot>> open = new LinkedHashMap<>();
    List<List<Shot>> lines = new ArrayList<>();
    for (Shot shot : shots) {
      if (role(shot) != role) {
        continue;
      }
      String[] words = words(shot);
      boolean numbered = words.length > 1 && words[1].matches("\\d+");
      String name = (numbered ? words[0] + " " + words[1] : words[0]).toUpperCase(Locale.ROOT);
      List<String> signs =
          List.of(words).subList(numbered ? 2 : 1, words.length).stream()
              .map(word -> word.toLowerCase(Locale.ROOT))
              .toList();
      List<Shot> line = open.get(name);
      boolean far =
          line != null
              && line.get(line.size() - 1).coordinate().distance(shot.coordinate()) > longestM;
      if (far) {
        parted.add(shot);
      }
      if (line == null || far || signs.contains("start")) {
        line = new ArrayList<>();
        lines.add(line);
        open.put(name, line);
      }
      line.add(shot);
      if (signs.contains("close")) {
        line.add(line.get(0));
      }
      if (signs.contains("end") || signs.contains("close")) {
        open.remove(name);
      }
    }
    return lines;
  }

  /** The letters with which a code begins. */
  private static String letters(String word) {
    int end = 0;
    while (end < word.length() && Character.isLetter(word.charAt(end))) {
      end++;
    }
    return word.substring(0, end);
  }

  private static String[] words(Shot shot) {
    return shot.code().strip().split("[\\s,;/]+", -1);
  }
}
