package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;

/**
 * Ranks the drains that work and says why, in words with numbers: first the kind that the lot's
 * water asks for; within a kind first what takes all of the water, then the cheapest; the
 * shallowest and the least disturbing are named.
 */
final class RouteRanking {

  /**
   * A drain that works.
   *
   * @param collector what it takes its water from
   * @param draft the drain
   * @param audit what the check of it found; passed
   * @param price price by the unit prices in force
   * @param disturbance length of opened ground in metres, weighted by what it is opened in
   * @param notes what was left out and why, in words
   */
  record Candidate(
      Collector collector,
      Draft draft,
      Audit audit,
      double price,
      double disturbance,
      List<String> notes) {

    /** Length in metres of the collecting lines that could not be joined. */
    double leftOutM() {
      return draft.unserved().stream().mapToDouble(i -> collector.lines().get(i).getLength()).sum();
    }

    double maxDepthM() {
      double deepest = deepest(draft.main());
      for (Route.Branch branch : draft.branches()) {
        deepest = Math.max(deepest, deepest(branch.line()));
      }
      return deepest;
    }

    private static double deepest(DrainLine line) {
      return line.stations().stream().mapToDouble(Station::depthM).max().orElse(0);
    }
  }

  /** At most so many of a kind are proposed. */
  private static final int MOST_OF_A_KIND = 3;

  private static final double SAME = 1e-6;

  private final KindOrder order;
  private final List<Candidate> ranked = new ArrayList<>();

  RouteRanking(KindOrder order, List<Candidate> candidates) {
    this.order = order;
    for (DrainKind kind : order.order()) {
      candidates.stream()
          .filter(c -> c.collector().kind() == kind)
          .sorted(
              Comparator.comparingDouble(Candidate::leftOutM)
                  .thenComparingDouble(Candidate::price)
                  .thenComparingDouble(Candidate::maxDepthM)
                  .thenComparing(c -> c.draft().outletId()))
          .limit(MOST_OF_A_KIND)
          .forEach(ranked::add);
    }
  }

  /** The candidates, best first. */
  List<Candidate> ranked() {
    return ranked;
  }

  /** Why a ranked candidate stands where it does. */
  List<String> reasons(int index) {
    Candidate mine = ranked.get(index);
    List<Candidate> peers =
        ranked.stream().filter(c -> c.collector().kind() == mine.collector().kind()).toList();
    List<String> reasons = new ArrayList<>();
    reasons.add(mine.collector().why());
    if (index == 0) {
      reasons.add(order.why());
    }
    reasons.add(
        superlative(
            mine, peers, Candidate::price, "cheapest", "price %.0f", "dearer than %s by %.0f %%"));
    reasons.add(
        superlative(
            mine,
            peers,
            Candidate::maxDepthM,
            "shallowest",
            "%.2f m deep at most",
            "deeper than %s by %.0f %%"));
    reasons.add(
        superlative(
            mine,
            peers,
            Candidate::disturbance,
            "least disturbance",
            "%.0f m of ground opened, weighted",
            "disturbs more than %s by %.0f %%"));
    reasons.addAll(mine.notes());
    reasons.addAll(mine.draft().notes());
    return reasons;
  }

  private String superlative(
      Candidate mine,
      List<Candidate> peers,
      ToDoubleFunction<Candidate> measure,
      String best,
      String value,
      String worse) {
    double own = measure.applyAsDouble(mine);
    String number = String.format(Locale.ROOT, value, own);
    if (peers.size() == 1) {
      return number;
    }
    Candidate least = peers.stream().min(Comparator.comparingDouble(measure)).orElseThrow();
    double leastValue = measure.applyAsDouble(least);
    if (own <= leastValue + SAME) {
      return best
          + " of "
          + peers.size()
          + " "
          + mine.collector().kind().word()
          + " drains: "
          + number;
    }
    return number
        + ", "
        + String.format(
            Locale.ROOT,
            worse,
            id(ranked.indexOf(least)),
            100 * (own - leastValue) / Math.max(SAME, leastValue));
  }

  /** The id of the candidate of that rank, from 0. */
  static String id(int index) {
    return "R" + (index + 1);
  }
}
