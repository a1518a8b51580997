package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;

/**
 * A drain that falls all the way to its outlet within the limits.
 *
 * @param id {@code R1}, {@code R2} … by rank
 * @param kind what the drain does
 * @param rank 1 for the best
 * @param outletId the outlet it reaches
 * @param main the line that ends at the outlet
 * @param branches lines that join it or each other, a tree: each after the line that it joins,
 *     those that join one line in order of their junctions' stations
 * @param fallM invert at the upper end of the main line minus invert at the outlet, in metres
 * @param minGrade least grade of any stretch
 * @param maxGrade greatest grade of any stretch
 * @param minCoverM least cover in metres
 * @param maxDepthM greatest depth in metres
 * @param gradeBreaks changes of grade, branches included
 * @param searchPrice what the search weighed it at: net quantities with one pipe throughout, by the
 *     unit prices in force, stand-ins where the user gave none; the bill is its take-off's
 * @param crosses what it passes under or through, in words, by station
 * @param bores the stretches that are bored, by line and station, each with its pipes
 * @param reasons why it ranks where it does, in words with numbers
 * @param cautions what its builder must be told, in words
 * @param audit what the independent check found; always passed in a proposed route
 */
public record Route(
    String id,
    DrainKind kind,
    int rank,
    String outletId,
    DrainLine main,
    List<Branch> branches,
    double fallM,
    double minGrade,
    double maxGrade,
    double minCoverM,
    double maxDepthM,
    int gradeBreaks,
    double searchPrice,
    List<String> crosses,
    List<Bore> bores,
    List<String> reasons,
    List<String> cautions,
    Audit audit) {

  /** Keeps the lists to itself. */
  public Route {
    branches = List.copyOf(branches);
    crosses = List.copyOf(crosses);
    bores = List.copyOf(bores);
    reasons = List.copyOf(reasons);
    cautions = List.copyOf(cautions);
  }

  /**
   * The same route with other pipes in its bores.
   *
   * @param sized a bore for each of {@link #bores()}, in their order
   */
  public Route withBores(List<Bore> sized) {
    List<String> words = new ArrayList<>();
    int bore = 0;
    for (String crossing : crosses) {
      int at = bore < bores.size() ? crossing.lastIndexOf(bores.get(bore).pipes().words()) : -1;
      words.add(at < 0 ? crossing : crossing.substring(0, at) + sized.get(bore++).pipes().words());
    }
    return new Route(
        id,
        kind,
        rank,
        outletId,
        main,
        branches,
        fallM,
        minGrade,
        maxGrade,
        minCoverM,
        maxDepthM,
        gradeBreaks,
        searchPrice,
        words,
        sized,
        reasons,
        cautions,
        audit);
  }

  /** Plan length of main line and branches in metres. */
  public double lengthM() {
    return main.lengthM() + branches.stream().mapToDouble(b -> b.line().lengthM()).sum();
  }

  /**
   * A line that joins another.
   *
   * @param line the line, its last station at the junction
   * @param joins number of the line that it joins: 0 for the main line, else that of a branch
   *     listed before it, counted from 1
   * @param junctionM station of the junction on that line in metres
   */
  public record Branch(DrainLine line, int joins, double junctionM) {

    /** A line that joins the main line. */
    public Branch(DrainLine line, double junctionM) {
      this(line, 0, junctionM);
    }
  }
}
