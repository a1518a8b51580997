package org.yardfall.layer;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * How a layer is drawn: the first rule that fits a feature counts.
 *
 * <p>The colours can be told apart with any of the common colour vision deficiencies: kinds are
 * coloured by the set of Okabe &amp; Ito ("Color Universal Design", 2008), with indigo and wine of
 * Tol's muted set ("Colour Schemes", SRON technical note, from memory), ordered classes by the
 * five-class YlGn scheme of Harrower &amp; Brewer (ColorBrewer 2.0; The Cartographic Journal 40(1),
 * 2003). What belongs together differs in width, dash or mark as well as in colour.
 *
 * @param rules the rules, every feature of the layer meeting one of them
 */
public record LayerStyle(List<Rule> rules) {

  private static final String BLACK = "#000000";
  private static final String ORANGE = "#E69F00";
  private static final String SKY_BLUE = "#56B4E9";
  private static final String BLUISH_GREEN = "#009E73";
  private static final String YELLOW = "#F0E442";
  private static final String BLUE = "#0072B2";
  private static final String VERMILION = "#D55E00";
  private static final String REDDISH_PURPLE = "#CC79A7";
  private static final String INDIGO = "#332288";
  private static final String WINE = "#882255";
  private static final String GREY = "#7F7F7F";
  private static final String WHITE = "#FFFFFF";

  private static final List<String> YELLOW_TO_GREEN =
      List.of("#FFFFCC", "#C2E699", "#78C679", "#31A354", "#006837");

  private static final Map<String, LayerStyle> STYLES =
      Map.ofEntries(
          Map.entry("low_spots", all("Low spot", Symbol.area(SKY_BLUE, 0.3, BLUE, 1).broken())),
          Map.entry(
              "standing",
              new LayerStyle(
                  List.of(
                      rule("Standing water", "inlets", "either", Symbol.area(BLUE, 0.55, BLUE, 1)),
                      rule("With inlets open", "inlets", "open", Symbol.area(BLUE, 0.55, BLUE, 1)),
                      rule(
                          "With inlets blocked",
                          "inlets",
                          "blocked",
                          Symbol.area(BLUE, 0.2, BLUE, 1).broken())))),
          Map.entry("flow_paths", all("Flow path", Symbol.line(SKY_BLUE, 1.5))),
          Map.entry("catchments", all("Catchment", Symbol.area(YELLOW, 0.05, GREY, 1).broken())),
          Map.entry("overland", all("Way if a drain is blocked", Symbol.line(BLUE, 2).broken())),
          Map.entry("levelled", all("Swale to level", Symbol.area(GREY, 0.2, BLACK, 1).broken())),
          Map.entry(
              "altered", all("Lowered for an opening", Symbol.point("square", 5, SKY_BLUE, BLACK))),
          Map.entry(
              "daylight",
              all("A pipe may come to daylight", Symbol.area(YELLOW, 0.15, GREY, 1).broken())),
          Map.entry("lot", all("Lot", Symbol.line(BLACK, 2.5))),
          Map.entry("stations", all("Station", Symbol.point("circle", 5, WHITE, BLACK))),
          Map.entry("outlets", all("Outlet", Symbol.point("triangle", 12, VERMILION, BLACK))),
          Map.entry("reach", new LayerStyle(reach())),
          Map.entry("reach_lines", all("Room in height", Symbol.line("#006837", 1))),
          Map.entry(
              "inflow",
              new LayerStyle(
                  List.of(
                      rule("Water in", "direction", "in", Symbol.line(VERMILION, 5)),
                      rule("Water out", "direction", "out", Symbol.line(BLUE, 5).broken())))),
          Map.entry(
              "drains",
              new LayerStyle(
                  List.of(
                      rule("Perimeter drain", "kind", "perimeter", Symbol.line(REDDISH_PURPLE, 4)),
                      rule("Curtain drain", "kind", "curtain", Symbol.line(ORANGE, 3)),
                      rule("Low-spot drain", "kind", "low-spot", Symbol.line(BLUISH_GREEN, 3)),
                      rule("In place of a swale", "kind", "swale", Symbol.line(BLACK, 3)),
                      rule("Uphill interceptor", "kind", "interceptor", Symbol.line(WINE, 3)),
                      rule("Drain as drawn", "kind", "pinned", Symbol.line(INDIGO, 3))))),
          Map.entry(
              "obstacles",
              new LayerStyle(
                  List.of(
                      rule("Building", "kind", "building", Symbol.area(GREY, 0.6, BLACK, 1)),
                      rule("Slab", "kind", "slab", Symbol.area(GREY, 0.25, GREY, 1)),
                      new Rule(
                          "To be minded",
                          Optional.empty(),
                          Symbol.area(ORANGE, 0.25, ORANGE, 1).broken())))));

  /** Keeps the list to itself. */
  public LayerStyle {
    rules = List.copyOf(rules);
  }

  /** The style of the layer of the given name. */
  public static LayerStyle of(String layer) {
    LayerStyle style = STYLES.get(layer);
    if (style == null) {
      throw new IllegalArgumentException("no style for layer " + layer);
    }
    return style;
  }

  /** Index of the first rule that fits the feature. */
  public int ruleFor(Layer layer, Feature feature) {
    for (int i = 0; i < rules.size(); i++) {
      if (rules.get(i).fits(layer, feature)) {
        return i;
      }
    }
    throw new IllegalArgumentException("layer " + layer.name() + " has a feature without a style");
  }

  /**
   * How the features that pass a test are drawn.
   *
   * @param title for a legend
   * @param test the test; empty: every feature that met no rule before
   * @param symbol how they are drawn
   */
  public record Rule(String title, Optional<Test> test, Symbol symbol) {

    boolean fits(Layer layer, Feature feature) {
      return test.isEmpty()
          || test.get()
              .value()
              .equals(String.valueOf(feature.values().get(layer.indexOf(test.get().field()))));
    }
  }

  /**
   * Whether a field holds a value.
   *
   * @param field the field's name
   * @param value the value, as text
   */
  public record Test(String field, String value) {}

  private static LayerStyle all(String title, Symbol symbol) {
    return new LayerStyle(List.of(new Rule(title, Optional.empty(), symbol)));
  }

  private static Rule rule(String title, String field, String value, Symbol symbol) {
    return new Rule(title, Optional.of(new Test(field, value)), symbol);
  }

  private static List<Rule> reach() {
    List<Rule> rules = new ArrayList<>();
    rules.add(
        rule(
            "No pipe falls to an outlet",
            "room_class",
            String.valueOf(ReachLayer.NO_REACH),
            Symbol.area(VERMILION, 0.12, VERMILION, 0.5).broken()));
    for (int i = 0; i < ReachLayer.FROM_M.size(); i++) {
      rules.add(
          rule(
              "Room of " + ReachLayer.FROM_M.get(i) + " m or more",
              "room_class",
              String.valueOf(i + 1),
              Symbol.area(YELLOW_TO_GREEN.get(i), 0.5, YELLOW_TO_GREEN.get(i), 0.5)));
    }
    return rules;
  }
}
