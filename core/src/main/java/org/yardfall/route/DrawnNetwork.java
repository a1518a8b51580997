package org.yardfall.route;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.locationtech.jts.geom.Point;
import org.yardfall.site.Outlet;
import org.yardfall.site.PinnedLine;

/**
 * A line that the user drew to an outlet, with the drawn lines that end on it or on each other: its
 * branches.
 *
 * @param main the line that leads to the outlet
 * @param branches the others, each after the line that it ends on
 */
record DrawnNetwork(PinnedLine main, List<Branch> branches) {

  /**
   * A drawn branch.
   *
   * @param line the line
   * @param joins number of the line that it ends on: 0 is the main line, 1 the first branch
   */
  record Branch(PinnedLine line, int joins) {}

  /**
   * A line drawn to within this distance of what it leads to, in metres, was meant to end there.
   */
  static final double MEANT_M = 0.5;

  /** What a line ends on: nothing that leads to an outlet. */
  private static final int NOTHING = -1;

  private static final int NOT_KNOWN = -2;

  /** Keeps the list to itself. */
  DrawnNetwork {
    branches = List.copyOf(branches);
  }

  /**
   * The networks of drawn lines. A line that reaches no outlet, or says what it joins, is the
   * branch of a line that it has an end on: of the one that it names, else of one with its own id,
   * else of the nearest that leads to an outlet, itself or by what it ends on. Every other line
   * stands alone.
   */
  static List<DrawnNetwork> of(List<PinnedLine> drawn, List<Outlet> outlets) {
    int[] onto = new int[drawn.size()];
    Arrays.setAll(
        onto,
        i ->
            drawn.get(i).joins().isEmpty() && reaches(drawn.get(i), outlets) ? NOTHING : NOT_KNOWN);
    boolean more = true;
    while (more) {
      int[] before = onto.clone();
      for (int i = 0; i < onto.length; i++) {
        if (before[i] == NOT_KNOWN) {
          onto[i] = joined(i, before, drawn).orElse(NOT_KNOWN);
        }
      }
      more = !Arrays.equals(before, onto);
    }
    return IntStream.range(0, onto.length)
        .filter(i -> onto[i] < 0)
        .mapToObj(i -> network(i, onto, drawn))
        .toList();
  }

  private static DrawnNetwork network(int main, int[] onto, List<PinnedLine> drawn) {
    List<Integer> lines = new ArrayList<>(List.of(main));
    List<Branch> branches = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      for (int line = 0; line < onto.length; line++) {
        if (onto[line] == lines.get(i)) {
          lines.add(line);
          branches.add(new Branch(drawn.get(line), i));
        }
      }
    }
    return new DrawnNetwork(drawn.get(main), branches);
  }

  private static boolean reaches(PinnedLine line, List<Outlet> outlets) {
    return outlets.stream()
        .map(outlet -> line.line().getFactory().createPoint(outlet.at()))
        .anyMatch(
            at ->
                line.line().getStartPoint().distance(at) <= MEANT_M
                    || line.line().getEndPoint().distance(at) <= MEANT_M);
  }

  /** The line that one ends on, among those that are known to lead to an outlet. */
  private static OptionalInt joined(int branch, int[] onto, List<PinnedLine> drawn) {
    PinnedLine line = drawn.get(branch);
    Comparator<Integer> ofItsDrain =
        Comparator.comparing(i -> !drawn.get(i).id().equals(line.id()));
    return IntStream.range(0, onto.length)
        .filter(i -> i != branch && toEnd(line, drawn.get(i)) <= MEANT_M)
        .filter(i -> line.joins().isEmpty() || named(line, drawn.get(i)))
        .filter(i -> onto[i] != NOT_KNOWN)
        .boxed()
        .min(ofItsDrain.thenComparingDouble(i -> toEnd(line, drawn.get(i))))
        .map(OptionalInt::of)
        .orElse(OptionalInt.empty());
  }

  private static boolean named(PinnedLine line, PinnedLine other) {
    return other.id().equals(line.id()) && other.part().equals(line.joins());
  }

  private static double toEnd(PinnedLine line, PinnedLine other) {
    Point start = line.line().getStartPoint();
    return Math.min(other.line().distance(start), other.line().distance(line.line().getEndPoint()));
  }
}
