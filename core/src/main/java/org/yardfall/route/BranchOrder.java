package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/** The order in which a drain's branches are numbered. */
final class BranchOrder {

  private BranchOrder() {}

  /**
   * The same branches, each after the line that it joins, those of a line by their junctions'
   * stations; what each joins is numbered anew.
   *
   * @param branches branches in any order, whose {@code joins} count in that order
   */
  static List<Route.Branch> downTheLines(List<Route.Branch> branches) {
    List<Integer> order = new ArrayList<>(List.of(0));
    List<Route.Branch> sorted = new ArrayList<>();
    for (int i = 0; i < order.size(); i++) {
      int joined = order.get(i);
      int number = i;
      IntStream.range(0, branches.size())
          .filter(branch -> branches.get(branch).joins() == joined)
          .boxed()
          .sorted(Comparator.comparingDouble(branch -> branches.get(branch).junctionM()))
          .forEach(
              branch -> {
                order.add(branch + 1);
                Route.Branch same = branches.get(branch);
                sorted.add(new Route.Branch(same.line(), number, same.junctionM()));
              });
    }
    return sorted;
  }
}
