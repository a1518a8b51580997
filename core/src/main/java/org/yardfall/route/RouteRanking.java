package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.locationtech.jts.geom.LineString;

/**
 * Ranks the drains that work and says why, in words with numbers: first what the user drew, then
 * what takes the place of a swale or the water of a wet patch that the user saw, then the kind that
 * takes the bulk of the water for the least ({@link KindOrder}); within a kind first what takes all
 * of its water, then the cheapest; the shallowest and the least disturbing are named. What hardly
 * differs from a better drain ({@link DrainDifference}) and gains next to nothing on it is left
 * out, and said to be where fewer than three are left.
 */
final class RouteRanking {

  /**
   * A drain that works.
   *
   * @param collector what it takes its water from
   * @param draft the drain
   * @param crossings what it passes under or through
   * @param audit what the check of it found; passed
   * @param price price by the unit prices in force
   * @param disturbance length of opened ground in metres, weighted by what it is opened in
   * @param notes what was left out and why, in words
   */
  record Candidate(
      Collector collector,
      Draft draft,
      Crossings crossings,
      Audit audit,
      double price,
      double disturbance,
      List<String> notes) {

    /** Length in metres of the collecting lines that could not be joined. */
    double leftOutM() {
      return draft.unservedM();
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

  /** Kinds that the user asked for, by a line, a swale or a wet patch: they come before others. */
  static final List<DrainKind> ASKED_FOR =
      List.of(DrainKind.PINNED, DrainKind.SWALE, DrainKind.INTERCEPTOR);

  /** Less in metres left out of a collecting line is nothing to dig for. */
  private static final double LEAST_LEFT_M = Stubs.LEAST_M;

  /** As many alternatives are ranked, where so many were found. */
  private static final int LEAST_RANKED = 3;

  /** At most so many of a kind are proposed. */
  private static final int MOST_OF_A_KIND = 3;

  /** Prices and disturbances that differ by a smaller share are the same to a reader. */
  private static final double SAME_SHARE = 0.01;

  private static final double SAME_DEPTH_M = 0.01;

  /** A drain that hardly differs from a better one is worth offering if shallower by so much … */
  static final double GAIN_M = 0.05;

  /** … or if it disturbs less by such a share. */
  static final double GAIN_SHARE = 0.1;

  /** One that lies elsewhere need gain only so much in metres … */
  private static final double GAIN_ELSEWHERE_M = 0.03;

  /** … or so large a share. */
  private static final double GAIN_ELSEWHERE_SHARE = 0.03;

  private final KindOrder order;
  private final PriceWord priced;
  private final List<Candidate> ranked = new ArrayList<>();
  private int nearEquals;

  /**
   * Ranks drains.
   *
   * @param collectors what there is to take, by kind
   * @param takenM2 area in m² whose water a drain takes as laid
   * @param priced what the prices are called
   */
  RouteRanking(
      List<Collector> collectors,
      List<Candidate> candidates,
      ToDoubleFunction<Draft> takenM2,
      PriceWord priced) {
    this.priced = priced;
    Map<DrainKind, List<Candidate>> byKind = new EnumMap<>(DrainKind.class);
    for (Candidate c : candidates) {
      byKind.computeIfAbsent(c.collector().kind(), k -> new ArrayList<>()).add(c);
    }
    Map<DrainKind, Double> prices = new EnumMap<>(DrainKind.class);
    Map<DrainKind, Double> taken = new EnumMap<>(DrainKind.class);
    byKind.forEach(
        (kind, all) -> {
          all.sort(
              Comparator.comparingDouble(Candidate::leftOutM)
                  .thenComparingDouble(Candidate::price)
                  .thenComparingDouble(Candidate::maxDepthM)
                  .thenComparing(c -> c.draft().outletId()));
          if (!ASKED_FOR.contains(kind)) {
            prices.put(kind, all.get(0).price());
            taken.put(kind, takenM2.applyAsDouble(all.get(0).draft()));
          }
        });
    order =
        KindOrder.of(
            collectors.stream().filter(c -> !ASKED_FOR.contains(c.kind())).toList(),
            prices,
            taken,
            priced);
    ranked.addAll(byKind.getOrDefault(DrainKind.PINNED, List.of()));
    for (DrainKind kind : List.of(DrainKind.SWALE, DrainKind.INTERCEPTOR)) {
      worthOffering(byKind.getOrDefault(kind, List.of())).stream()
          .limit(MOST_OF_A_KIND)
          .forEach(ranked::add);
    }
    for (DrainKind kind : order.order()) {
      worthOffering(byKind.getOrDefault(kind, List.of())).stream()
          .limit(MOST_OF_A_KIND)
          .forEach(ranked::add);
    }
    fillUp(byKind);
  }

  /**
   * Where fewer than three stand, those that differ from all of them but gain little are offered
   * after all, best kind first.
   */
  private void fillUp(Map<DrainKind, List<Candidate>> byKind) {
    for (DrainKind kind : order.order()) {
      for (Candidate c : byKind.getOrDefault(kind, List.of())) {
        if (ranked.size() >= LEAST_RANKED || ranked.contains(c)) {
          continue;
        }
        if (!ranked.stream().allMatch(before -> DrainDifference.differ(c, before))) {
          nearEquals++;
          continue;
        }
        int after = ranked.size();
        while (after > 0 && ranked.get(after - 1).collector().kind() != kind) {
          after--;
        }
        ranked.add(after, c);
      }
    }
  }

  /** Without those that lead to the outlet of a better one and gain next to nothing on it. */
  private static List<Candidate> worthOffering(List<Candidate> sorted) {
    List<Candidate> kept = new ArrayList<>();
    for (Candidate c : sorted) {
      if (kept.stream().noneMatch(k -> gainsNothing(c, k))) {
        kept.add(c);
      }
    }
    return kept;
  }

  private static boolean gainsNothing(Candidate c, Candidate better) {
    if (!better.draft().outletId().equals(c.draft().outletId())) {
      return false;
    }
    boolean elsewhere = DrainDifference.differ(c, better);
    return better.maxDepthM() - c.maxDepthM() < (elsewhere ? GAIN_ELSEWHERE_M : GAIN_M)
        && better.disturbance()
            < c.disturbance() * (1 + (elsewhere ? GAIN_ELSEWHERE_SHARE : GAIN_SHARE));
  }

  /** The candidates, best first. */
  List<Candidate> ranked() {
    return ranked;
  }

  /** Why a ranked candidate stands where it does. */
  List<String> reasons(int index) {
    Candidate mine = ranked.get(index);
    DrainKind kind = mine.collector().kind();
    List<Candidate> peers = ranked.stream().filter(c -> c.collector().kind() == kind).toList();
    List<String> reasons = new ArrayList<>();
    reasons.add(mine.collector().why());
    if (kind == DrainKind.PINNED) {
      ranked.stream()
          .filter(c -> c.collector().kind() != DrainKind.PINNED)
          .findFirst()
          .ifPresent(
              c ->
                  reasons.add(
                      String.format(
                          Locale.ROOT,
                          "the best drain found without it is %s, %s at a %s of %s",
                          id(ranked.indexOf(c)),
                          c.collector().kind().words(),
                          priced.words(),
                          Figures.price(c.price()))));
    } else if (mine.equals(peers.get(0)) && kind == firstFound() && !order.why().isEmpty()) {
      DrainKind before = ranked.get(0).collector().kind();
      boolean after = before == DrainKind.SWALE || before == DrainKind.INTERCEPTOR;
      reasons.add((after ? "for the other surface water " : "") + order.why());
    } else if (kind == DrainKind.INTERCEPTOR) {
      reasons.add("it takes water that you saw come out of the ground, which no other kind takes");
    }
    reasons.add(price(mine, peers));
    reasons.add(depth(mine, peers));
    reasons.add(disturbance(mine, peers));
    reasons.add(elsewhere(mine, peers));
    reasons.add(index == 0 ? fewerThanThree() : "");
    reasons.removeIf(String::isEmpty);
    reasons.addAll(mine.notes());
    complement(mine, peers).ifPresent(reasons::add);
    reasons.addAll(mine.draft().notes());
    return reasons;
  }

  /** Another drain of the kind that takes just what this one leaves out, to another outlet. */
  private Optional<String> complement(Candidate mine, List<Candidate> peers) {
    if (mine.leftOutM() < LEAST_LEFT_M) {
      return Optional.empty();
    }
    return peers.stream()
        .filter(c -> !c.draft().outletId().equals(mine.draft().outletId()))
        .filter(c -> c.leftOutM() >= LEAST_LEFT_M && takes(c, mine.draft().unserved()))
        .findFirst()
        .map(
            c ->
                String.format(
                    Locale.ROOT,
                    "what it leaves out is taken by %s, to outlet %s: together the two take all of"
                        + " the line",
                    id(ranked.indexOf(c)),
                    c.draft().outletId()));
  }

  private static boolean takes(Candidate other, List<LineString> lines) {
    return lines.stream()
        .allMatch(
            line ->
                other.draft().unserved().stream()
                    .allMatch(left -> left.intersection(line).getLength() < LEAST_LEFT_M));
  }

  private DrainKind firstFound() {
    return ranked.stream()
        .map(c -> c.collector().kind())
        .filter(k -> !ASKED_FOR.contains(k))
        .findFirst()
        .orElse(null);
  }

  private String price(Candidate mine, List<Candidate> peers) {
    String price = priced.words() + " " + Figures.price(mine.price());
    Candidate least = least(peers, Candidate::price);
    double more = mine.price() / Math.max(1e-9, least.price()) - 1;
    if (peers.size() == 1) {
      return price;
    }
    if (mine.equals(least)) {
      return "cheapest of " + all(mine, peers) + ": " + price;
    }
    String other = id(ranked.indexOf(least));
    return more < SAME_SHARE
        ? price + ", as " + other
        : String.format(Locale.ROOT, "%s, %.0f %% more than %s", price, 100 * more, other);
  }

  private String depth(Candidate mine, List<Candidate> peers) {
    double own = mine.maxDepthM();
    Candidate least = least(peers, Candidate::maxDepthM);
    double more = own - least.maxDepthM();
    String depth = String.format(Locale.ROOT, "at most %.2f m deep", own);
    if (peers.size() == 1 || (!mine.equals(least) && more < SAME_DEPTH_M)) {
      return depth;
    }
    return mine.equals(least)
        ? "shallowest of " + all(mine, peers) + ": " + depth
        : String.format(
            Locale.ROOT, "%s, %.2f m deeper than %s", depth, more, id(ranked.indexOf(least)));
  }

  /** Disturbance is a length weighted by what is opened; only its comparison means something. */
  private String disturbance(Candidate mine, List<Candidate> peers) {
    if (peers.size() == 1) {
      return "";
    }
    Candidate least = least(peers, Candidate::disturbance);
    double more = mine.disturbance() / Math.max(1e-9, least.disturbance()) - 1;
    if (mine.equals(least)) {
      return "disturbs lawn, roots and paving least of " + all(mine, peers);
    }
    return more < SAME_SHARE
        ? ""
        : String.format(
            Locale.ROOT,
            "disturbs lawn, roots and paving %.0f %% more than %s",
            100 * more,
            id(ranked.indexOf(least)));
  }

  /** How much of it lies elsewhere than the best of its kind. */
  private String elsewhere(Candidate mine, List<Candidate> peers) {
    Candidate first = peers.get(0);
    return mine.equals(first)
        ? ""
        : String.format(
            Locale.ROOT,
            "%.0f %% of its way lies elsewhere than that of %s",
            100 * DrainDifference.share(mine.draft(), first.draft()),
            id(ranked.indexOf(first)));
  }

  private String fewerThanThree() {
    if (ranked.size() >= LEAST_RANKED || firstFound() == null) {
      return "";
    }
    String found = ranked.size() == 1 ? "no other drain" : "no third drain";
    return nearEquals == 0
        ? found + " was found that works"
        : found
            + String.format(
                Locale.ROOT,
                " was found that is really different: what else works leads to the same outlet, less"
                    + " than %.0f %% of its way lies elsewhere, and it gains next to nothing",
                100 * DrainDifference.LEAST_SHARE);
  }

  private static String all(Candidate mine, List<Candidate> peers) {
    return "the " + peers.size() + " " + mine.collector().kind().word() + " drains";
  }

  private static Candidate least(List<Candidate> peers, ToDoubleFunction<Candidate> measure) {
    return peers.stream().min(Comparator.comparingDouble(measure)).orElseThrow();
  }

  /** The id of the candidate of that rank, from 0. */
  static String id(int index) {
    return "R" + (index + 1);
  }
}
