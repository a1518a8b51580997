package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.yardfall.site.Surface;
import org.yardfall.trench.Work;

/**
 * What a drain passes under or through.
 *
 * @param words by line and station, each with the way it is built
 * @param bores the stretches that are bored
 */
record Crossings(List<String> words, List<Bore> bores) {

  /** Keeps the lists to itself. */
  Crossings {
    words = List.copyOf(words);
    bores = List.copyOf(bores);
  }

  /** The crossings of a drain's lines. */
  static Crossings of(RouteGround ground, Draft draft, SlabPipes pipes) {
    List<String> words = new ArrayList<>();
    List<Bore> bores = new ArrayList<>();
    List<DrainLine> lines = new ArrayList<>(List.of(draft.main()));
    draft.branches().forEach(b -> lines.add(b.line()));
    for (int i = 0; i < lines.size(); i++) {
      String which = i == 0 ? "main line" : "branch " + i;
      for (RouteGround.Crossed c : ground.crossed(lines.get(i).vertices())) {
        String how =
            switch (c.span()) {
              case BORED -> "bored, " + pipes.words();
              case SOLID -> "solid pipe";
              case OPEN -> "dug under";
            };
        words.add(
            String.format(
                Locale.ROOT,
                "%s, station %.1f to %.1f m: %s, %s",
                which,
                c.fromM(),
                c.toM(),
                c.what(),
                how));
      }
      bores.addAll(bores(i, lines.get(i).stations(), pipes));
    }
    return new Crossings(words, bores);
  }

  private static List<Bore> bores(int line, List<Station> stations, SlabPipes pipes) {
    List<Bore> bores = new ArrayList<>();
    for (int i = 0; i + 1 < stations.size(); i++) {
      if (stations.get(i).span() == Station.Span.BORED) {
        int from = i;
        while (i + 1 < stations.size() - 1 && stations.get(i + 1).span() == Station.Span.BORED) {
          i++;
        }
        bores.add(
            new Bore(line, stations.get(from).stationM(), stations.get(i + 1).stationM(), pipes));
      }
    }
    return bores;
  }

  /** What the bores cost more than one bore of one pipe each does. */
  double moreCost(TrenchCost cost) {
    double sum = 0;
    for (Bore bore : bores) {
      sum +=
          (bore.pipes().count() - 1) * bore.lengthM() * cost.metre(Work.BORED, 0, Surface.Kind.LAWN)
              + bore.pipes().fittings() * cost.turn(90);
    }
    return sum;
  }
}
