package org.yardfall.fieldwork;

import java.util.List;
import java.util.Locale;
import org.yardfall.route.Station;

/**
 * The profile of each line as built over planned: ground and planned invert drawn thin, the shots
 * and the pipe between them thick, standing water hatched, blunders crossed. Heights are
 * exaggerated, and by how much is written beside.
 */
final class ProfileDrawing {

  private static final double WIDTH = 1000;
  private static final double HEIGHT = 300;
  private static final double LEFT = 80;
  private static final double TOP = 34;
  private static final double PLOT_WIDTH = WIDTH - LEFT - 20;
  private static final double PLOT_HEIGHT = HEIGHT - TOP - 44;
  private static final double[] STEPS = {1, 2, 5};

  private final AsBuiltProof proof;
  private final FieldUnits units;
  private final StringBuilder svg = new StringBuilder();
  private double topPx;
  private double lengthM;
  private double lowM;
  private double highM;

  private ProfileDrawing(AsBuiltProof proof, FieldUnits units) {
    this.proof = proof;
    this.units = units;
  }

  static String svg(AsBuiltProof proof, FieldUnits units) {
    return new ProfileDrawing(proof, units).draw();
  }

  private String draw() {
    List<PlannedLine> lines = PlannedLine.of(proof.route());
    put(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %.0f %.0f\""
            + " font-family=\"Helvetica, Arial, sans-serif\" font-size=\"15\">\n",
        WIDTH, HEIGHT * lines.size());
    put(
        "<defs><pattern id=\"water\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\">"
            + "<path d=\"M0 3h6\" stroke=\"#000\" stroke-width=\"1.2\"/></pattern></defs>\n");
    put("<rect width=\"100%%\" height=\"100%%\" fill=\"#fff\"/>\n");
    for (PlannedLine line : lines) {
      draw(line);
      topPx += HEIGHT;
    }
    return svg.append("</svg>").toString();
  }

  private void draw(PlannedLine line) {
    List<ProofShot> shots =
        proof.shots().stream().filter(s -> s.line().equals(line.name())).toList();
    fit(line, shots);
    axes(line);
    path(line.stations(), false, "stroke-dasharray=\"2 4\" stroke-width=\"1.5\"");
    path(line.stations(), true, "stroke-dasharray=\"10 5\" stroke-width=\"1.5\"");
    proof.bellies().stream()
        .filter(b -> b.line().equals(line.name()) && b.depthM() > proof.limits().noiseM())
        .forEach(b -> water(b, shots));
    built(line, shots);
    for (ProofShot shot : shots) {
      put(
          "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"4\" fill=\"#fff\" stroke=\"#000\""
              + " stroke-width=\"2\"/>\n",
          x(shot.stationM()), y(shot.builtM()));
    }
    for (Gap gap : proof.gaps()) {
      if (gap.line().equals(line.name())) {
        put(
            "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"middle\" font-size=\"13\">not shown</text>\n",
            x((gap.fromM() + gap.toM()) / 2), topPx + TOP + PLOT_HEIGHT - 6);
      }
    }
  }

  /** The pipe as built, interrupted where no shot shows it. */
  private void built(PlannedLine line, List<ProofShot> shots) {
    for (int i = 0; i + 1 < shots.size(); i++) {
      ProofShot a = shots.get(i);
      ProofShot b = shots.get(i + 1);
      boolean shown =
          proof.gaps().stream()
              .noneMatch(g -> g.line().equals(line.name()) && g.fromM() == a.stationM());
      if (shown) {
        put(
            "<path d=\"M%s L%s\" stroke=\"#000\" stroke-width=\"3\"/>\n",
            point(a.stationM(), a.builtM()), point(b.stationM(), b.builtM()));
      }
    }
  }

  private void fit(PlannedLine line, List<ProofShot> shots) {
    lengthM = line.lengthM();
    lowM = Double.POSITIVE_INFINITY;
    highM = Double.NEGATIVE_INFINITY;
    for (Station station : line.stations()) {
      lowM = Math.min(lowM, station.invertM());
      highM = Math.max(highM, Math.max(station.groundM(), station.invertM()));
    }
    for (ProofShot shot : shots) {
      lowM = Math.min(lowM, shot.builtM());
      highM = Math.max(highM, shot.builtM());
    }
    double room = Math.max(0.05, (highM - lowM) * 0.08);
    lowM -= room;
    highM += room;
  }

  private void axes(PlannedLine line) {
    double exaggeration = (PLOT_HEIGHT / (highM - lowM)) / (PLOT_WIDTH / lengthM);
    put(
        "<text x=\"%.0f\" y=\"%.1f\" font-weight=\"bold\">%s</text>\n",
        LEFT,
        topPx + 20,
        "main".equals(line.name()) ? "Main line" : "B" + line.name().substring(1));
    put(
        "<text x=\"%.0f\" y=\"%.1f\" text-anchor=\"end\" font-size=\"13\">thick: as built · dashed:"
            + " planned invert · dotted: ground · heights × %.0f</text>\n",
        WIDTH - 20, topPx + 20, exaggeration);
    put(
        "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"none\""
            + " stroke=\"#000\"/>\n",
        LEFT, topPx + TOP, PLOT_WIDTH, PLOT_HEIGHT);
    double heightStep = step((highM - lowM) / units.unitM() / 4) * units.unitM();
    for (double k = Math.ceil(lowM / heightStep); k * heightStep <= highM; k++) {
      double y = y(k * heightStep);
      put(
          "<path d=\"M%.1f %.1fh%.1f\" stroke=\"#999\" stroke-width=\"0.6\"/>\n",
          LEFT, y, PLOT_WIDTH);
      put(
          "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"end\">%s</text>\n",
          LEFT - 6, y + 5, FieldUnits.fixed(k * heightStep / units.unitM(), 2));
    }
    double stationStep = step(lengthM / units.unitM() / 8) * units.unitM();
    for (double k = 0; k * stationStep <= lengthM + 1e-9; k++) {
      double x = x(k * stationStep);
      put("<path d=\"M%.1f %.1fv6\" stroke=\"#000\"/>\n", x, topPx + TOP + PLOT_HEIGHT);
      put(
          "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"middle\">%s</text>\n",
          x, topPx + TOP + PLOT_HEIGHT + 22, units.station(k * stationStep));
    }
    put(
        "<text x=\"%.1f\" y=\"%.1f\" font-size=\"13\">%s, downstream →</text>\n",
        LEFT,
        topPx + TOP + PLOT_HEIGHT + 38,
        units.form() == FieldUnits.Form.METRES ? "metres" : "feet");
  }

  private void path(List<Station> stations, boolean invert, String style) {
    StringBuilder points = new StringBuilder();
    for (Station s : stations) {
      points.append(point(s.stationM(), invert ? s.invertM() : s.groundM())).append(' ');
    }
    put("<polyline points=\"%s\" fill=\"none\" stroke=\"#000\" %s/>\n", points, style);
  }

  /** Standing water: from its surface down to the pipe's invert as built. */
  private void water(Belly belly, List<ProofShot> shots) {
    ProofShot deepest =
        shots.stream()
            .min(
                java.util.Comparator.comparingDouble(
                    s -> Math.abs(s.stationM() - belly.deepestM())))
            .orElseThrow();
    double surface = deepest.builtM() + belly.depthM();
    StringBuilder points = new StringBuilder(point(belly.fromM(), surface));
    for (ProofShot shot : shots) {
      if (shot.stationM() > belly.fromM() && shot.stationM() < belly.toM()) {
        points.append(' ').append(point(shot.stationM(), Math.min(surface, shot.builtM())));
      }
    }
    points.append(' ').append(point(belly.toM(), surface));
    put("<polygon points=\"%s\" fill=\"url(#water)\" stroke=\"#000\"/>\n", points);
    put(
        "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"middle\" font-weight=\"bold\">belly %s"
            + " deep</text>\n",
        x((belly.fromM() + belly.toM()) / 2),
        y(surface) - 10,
        PrintPage.escaped(units.words(belly.depthM())));
  }

  private String point(double stationM, double elevationM) {
    return String.format(Locale.ROOT, "%.1f,%.1f", x(stationM), y(elevationM));
  }

  private double x(double stationM) {
    return LEFT + PLOT_WIDTH * stationM / lengthM;
  }

  private double y(double elevationM) {
    return topPx + TOP + PLOT_HEIGHT * (highM - elevationM) / (highM - lowM);
  }

  /** The round number next above a rough step. */
  private static double step(double rough) {
    double power = Math.pow(10, Math.floor(Math.log10(rough)));
    for (double s : STEPS) {
      if (s * power >= rough) {
        return s * power;
      }
    }
    return 10 * power;
  }

  private void put(String format, Object... values) {
    svg.append(String.format(Locale.ROOT, format, values));
  }
}
