package org.yardfall.sheet;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Locale;
import org.jfree.chart.annotations.XYLineAnnotation;
import org.jfree.chart.annotations.XYShapeAnnotation;
import org.jfree.chart.axis.AxisSpace;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.IntervalMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.yardfall.route.Station;
import org.yardfall.site.UnitSystem;

/**
 * The profile of one line of a drain at a true horizontal scale and a stated vertical exaggeration:
 * ground, pipe, the water at the peak, what it passes, and under it the stations' numbers.
 */
final class ProfilePanel {

  static final double LEFT = 46;
  static final double RIGHT = 14;
  private static final double TITLE = 22;
  private static final double MARKS = 20;
  private static final double AXIS = 26;
  private static final double ROW = 9.5;
  private static final double BODY = 7;
  private static final double SMALL = 6.5;
  private static final double LEAST_HEIGHT = 70;
  private static final int LABEL = 24;
  private static final double[] EXAGGERATIONS = {1, 2, 5, 10, 20, 50};

  private final ProfileLine profile;
  private final UnitSystem units;
  private final Color colour;
  private final double pointsPerM;
  private final String scaleWords;
  private final double exaggeration;
  private final double lowM;
  private final double highM;

  /**
   * A panel.
   *
   * @param profile what to show
   * @param units the reader's units
   * @param colour the drain's colour
   * @param pointsPerM horizontal scale in points per metre
   * @param mostHeight greatest height of the plot in points, which limits the exaggeration
   * @param scaleWords the horizontal scale in words where it is one of the list, or empty
   */
  ProfilePanel(
      ProfileLine profile,
      UnitSystem units,
      Color colour,
      double pointsPerM,
      double mostHeight,
      String scaleWords) {
    this.scaleWords = scaleWords;
    this.profile = profile;
    this.units = units;
    this.colour = colour;
    this.pointsPerM = pointsPerM;
    double margin = 0.12 * Math.max(0.5, profile.highestM() - profile.lowestM());
    double low = profile.lowestM() - margin;
    double high = profile.highestM() + margin;
    double chosen = EXAGGERATIONS[0];
    for (double each : EXAGGERATIONS) {
      if ((high - low) * pointsPerM * each <= mostHeight) {
        chosen = each;
      }
    }
    double short0 = Math.max(0, LEAST_HEIGHT / (pointsPerM * chosen) - (high - low));
    this.exaggeration = chosen;
    this.lowM = low - short0 / 2;
    this.highM = high + short0 / 2;
  }

  double exaggeration() {
    return exaggeration;
  }

  double width() {
    return LEFT + profile.line().lengthM() * pointsPerM + RIGHT;
  }

  double height() {
    return TITLE + MARKS + plotHeight() + AXIS + 4 * ROW + 6;
  }

  /** Draws it with its upper left corner at a point. */
  void draw(Graphics2D g, double x, double y) {
    double left = x + LEFT;
    double top = y + TITLE + MARKS;
    title(g, x, y);
    plot()
        .draw(
            g,
            new Rectangle2D.Double(x, top, LEFT + plotWidth(), plotHeight() + AXIS),
            null,
            null,
            null);
    marks(g, left, top);
    numbers(g, x, left, top + plotHeight() + AXIS);
  }

  private double plotWidth() {
    return profile.line().lengthM() * pointsPerM;
  }

  private double plotHeight() {
    return (highM - lowM) * pointsPerM * exaggeration;
  }

  private void title(Graphics2D g, double x, double y) {
    g.setColor(Ink.BLACK);
    g.setFont(SheetFont.of(9));
    String name = profile.name();
    g.drawString(name, (float) x, (float) (y + 16));
    g.setFont(SheetFont.of(BODY));
    g.setColor(Ink.DIM);
    String stated =
        String.format(Locale.ROOT, "%svertical exaggeration %.0f×", scaleWords, exaggeration);
    double at = x + SheetFont.width(name, 9) + 12;
    g.drawString(stated, (float) at, (float) (y + 16));
    at += SheetFont.width(stated, BODY) + 16;
    at = key(g, at, y + 13.5, Ink.GROUND, Ink.pen(1.2), "ground");
    at = key(g, at, y + 13.5, colour, Ink.pen(3), "pipe");
    if (!profile.water().isEmpty()) {
      key(g, at, y + 13.5, Ink.of("standing"), Ink.dashes(1.1, 4, 2), "water at the peak");
    }
  }

  private static double key(
      Graphics2D g, double x, double y, Color colour, java.awt.Stroke pen, String word) {
    g.setColor(colour);
    g.setStroke(pen);
    g.draw(new Line2D.Double(x, y, x + 16, y));
    g.setColor(Ink.DIM);
    g.drawString(word, (float) (x + 19), (float) (y + 2.5));
    return x + 19 + SheetFont.width(word, BODY) + 10;
  }

  private XYPlot plot() {
    double unit = units.metresPerLengthUnit();
    XYSeriesCollection lines = new XYSeriesCollection();
    lines.addSeries(series("ground", profile.ground(), unit));
    lines.addSeries(series("water", profile.water(), unit));
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
    renderer.setDrawSeriesLineAsPath(true);
    renderer.setSeriesPaint(0, Ink.GROUND);
    renderer.setSeriesStroke(0, Ink.pen(1.2));
    renderer.setSeriesPaint(1, Ink.of("standing"));
    renderer.setSeriesStroke(1, Ink.dashes(1.1, 4, 2));

    NumberAxis along = axis("station (" + units.lengthUnit() + ")");
    along.setRange(0, profile.line().lengthM() / unit);
    NumberAxis up = axis("elevation (" + units.lengthUnit() + ")");
    up.setRange(lowM / unit, highM / unit);
    XYPlot plot = new XYPlot(lines, along, up, renderer);
    plot.setInsets(RectangleInsets.ZERO_INSETS);
    plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
    plot.setBackgroundPaint(Ink.PAPER);
    plot.setOutlinePaint(Ink.DIM);
    plot.setOutlineStroke(Ink.pen(0.5));
    plot.setDomainGridlinePaint(Ink.FAINT);
    plot.setRangeGridlinePaint(Ink.FAINT);
    plot.setDomainGridlineStroke(Ink.dashes(0.4, 1, 2));
    plot.setRangeGridlineStroke(Ink.dashes(0.4, 1, 2));
    AxisSpace space = new AxisSpace();
    space.setLeft(LEFT);
    space.setBottom(AXIS);
    plot.setFixedRangeAxisSpace(space);
    plot.setFixedDomainAxisSpace(space);
    List<Station> stations = profile.line().stations();
    for (int i = 0; i + 1 < stations.size(); i++) {
      stretch(plot, stations.get(i), stations.get(i + 1), profile.outsideM().get(i), unit);
    }
    return plot;
  }

  private void stretch(XYPlot plot, Station up, Station down, double outside, double unit) {
    if (up.span() != Station.Span.OPEN) {
      IntervalMarker band =
          new IntervalMarker(up.stationM() / unit, down.stationM() / unit, Ink.FAINT);
      band.setAlpha(up.span() == Station.Span.BORED ? 0.45f : 0.2f);
      plot.addDomainMarker(band, Layer.BACKGROUND);
    }
    Path2D pipe = new Path2D.Double();
    pipe.moveTo(up.stationM() / unit, up.invertM() / unit);
    pipe.lineTo(down.stationM() / unit, down.invertM() / unit);
    pipe.lineTo(down.stationM() / unit, (down.invertM() + outside) / unit);
    pipe.lineTo(up.stationM() / unit, (up.invertM() + outside) / unit);
    pipe.closePath();
    plot.getRenderer()
        .addAnnotation(new XYShapeAnnotation(pipe, Ink.pen(0.4), colour, colour), Layer.BACKGROUND);
    for (double edge : new double[] {0, outside}) {
      plot.getRenderer()
          .addAnnotation(
              new XYLineAnnotation(
                  up.stationM() / unit,
                  (up.invertM() + edge) / unit,
                  down.stationM() / unit,
                  (down.invertM() + edge) / unit,
                  Ink.pen(0.6),
                  Ink.BLACK),
              Layer.BACKGROUND);
    }
  }

  private static XYSeries series(String name, List<ProfileLine.At> points, double unit) {
    XYSeries series = new XYSeries(name, false, true);
    points.forEach(p -> series.add(p.stationM() / unit, p.levelM() / unit));
    return series;
  }

  private static NumberAxis axis(String label) {
    NumberAxis axis = new NumberAxis(label);
    axis.setAutoRangeIncludesZero(false);
    axis.setLabelFont(SheetFont.of(BODY));
    axis.setTickLabelFont(SheetFont.of(BODY));
    axis.setLabelPaint(Ink.DIM);
    axis.setTickLabelPaint(Ink.DIM);
    axis.setLabelInsets(new RectangleInsets(1, 1, 1, 1));
    axis.setAxisLineVisible(false);
    return axis;
  }

  /**
   * What the line passes: its name above the plot, a tick down to it, its underside where known.
   */
  private void marks(Graphics2D g, double left, double top) {
    LabelPlacer labels =
        new LabelPlacer(g, new Rectangle2D.Double(left - LEFT, top - MARKS, width(), MARKS - 1));
    for (ProfileLine.Mark mark : profile.marks()) {
      double middle = left + (mark.fromM() + mark.toM()) / 2 * pointsPerM;
      g.setColor(Ink.DIM);
      g.setStroke(Ink.dashes(0.5, 2, 2));
      g.draw(new Line2D.Double(middle, top, middle, top + plotHeight()));
      mark.bottomM()
          .ifPresent(
              bottom -> {
                double y = top + (highM - bottom) * pointsPerM * exaggeration;
                if (y > top && y < top + plotHeight()) {
                  g.setColor(Ink.BLACK);
                  g.setStroke(Ink.pen(1.2));
                  g.draw(new Line2D.Double(middle - 4, y, middle + 4, y));
                }
              });
      String label = SheetFont.drawable(mark.label(), LABEL);
      if (!labels.centred(middle, top - 6, SMALL, Ink.DIM, label)) {
        labels.centred(middle, top - 14, SMALL, Ink.DIM, label);
      }
    }
  }

  private void numbers(Graphics2D g, double x, double left, double top) {
    String[] heads = {"ground", "invert", "depth", "cover"};
    g.setFont(SheetFont.of(SMALL));
    for (int row = 0; row < heads.length; row++) {
      g.setColor(Ink.DIM);
      g.drawString(heads[row], (float) x, (float) (top + (row + 1) * ROW));
    }
    List<Station> stations = profile.line().stations();
    double free = Double.NEGATIVE_INFINITY;
    double end = left + plotWidth();
    for (int i = 0; i < stations.size(); i++) {
      Station s = stations.get(i);
      String[] texts = {
        Stationing.bare(s.groundM(), units),
        Stationing.bare(s.invertM(), units),
        Stationing.depth(s.depthM(), units).replace(" m", ""),
        Stationing.depth(s.coverM(), units).replace(" m", "")
      };
      double half = 0;
      for (String text : texts) {
        half = Math.max(half, SheetFont.width(text, SMALL) / 2);
      }
      double middle = Math.min(left + s.stationM() * pointsPerM, end + RIGHT - half);
      boolean last = i == stations.size() - 1;
      boolean roomBeforeLast = last || middle + half + 4 < end - 2 * half;
      if (middle - half < free || !roomBeforeLast) {
        continue;
      }
      free = middle + half + 4;
      g.setColor(Ink.BLACK);
      for (int row = 0; row < texts.length; row++) {
        double width = SheetFont.width(texts[row], SMALL);
        g.drawString(texts[row], (float) (middle - width / 2), (float) (top + (row + 1) * ROW));
      }
    }
  }
}
