package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;

/** The figures of a laid drain: fall, grades, cover, depth, breaks. */
final class RouteMeasures {

  private static final double EPSILON_M = 1e-9;

  private final List<DrainLine> lines = new ArrayList<>();
  private final Draft draft;

  RouteMeasures(Draft draft) {
    this.draft = draft;
    lines.add(draft.main());
    draft.branches().forEach(b -> lines.add(b.line()));
  }

  /** The drain as a proposed route. */
  Route route(
      String id,
      DrainKind kind,
      int rank,
      double searchPrice,
      Crossings crossings,
      List<String> reasons,
      List<String> cautions,
      Audit audit) {
    List<Station> main = draft.main().stations();
    return new Route(
        id,
        kind,
        rank,
        draft.outletId(),
        draft.main(),
        draft.branches(),
        main.get(0).invertM() - main.get(main.size() - 1).invertM(),
        grades().min().orElse(0),
        grades().max().orElse(0),
        cover(audit),
        deepestM(),
        lines.stream().mapToInt(GradeLine::breaks).sum(),
        searchPrice,
        crossings.words(),
        crossings.bores(),
        reasons,
        cautions,
        audit);
  }

  /** Greatest depth in metres. */
  double deepestM() {
    return lines.stream()
        .flatMap(l -> l.stations().stream())
        .mapToDouble(Station::depthM)
        .max()
        .orElse(0);
  }

  private java.util.stream.DoubleStream grades() {
    List<Double> grades = new ArrayList<>();
    for (DrainLine line : lines) {
      for (int i = 1; i < line.stations().size(); i++) {
        Station a = line.stations().get(i - 1);
        Station b = line.stations().get(i);
        double length = b.stationM() - a.stationM();
        if (length > EPSILON_M) {
          grades.add((a.invertM() - b.invertM()) / length);
        }
      }
    }
    return grades.stream().mapToDouble(g -> g);
  }

  /** Least cover where cover is asked at all, as the audit found it. */
  private double cover(Audit audit) {
    return audit.checks().stream()
        .filter(c -> c.name().equals("cover"))
        .mapToDouble(Audit.Check::worst)
        .findFirst()
        .orElseGet(
            () ->
                lines.stream()
                    .flatMap(l -> l.stations().stream())
                    .mapToDouble(Station::coverM)
                    .min()
                    .orElse(0));
  }
}
