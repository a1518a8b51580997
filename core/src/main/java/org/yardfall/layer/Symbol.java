package org.yardfall.layer;

import java.util.Optional;

/**
 * How features are drawn.
 *
 * @param fill colour inside as {@code #rrggbb}; empty: not filled
 * @param fillOpacity 0 to 1
 * @param stroke colour of the line or rim as {@code #rrggbb}
 * @param widthPx its width in pixels at 96 to the inch
 * @param dashed whether it is broken
 * @param mark shape of a point: {@code circle}, {@code square} or {@code triangle}
 * @param sizePx size of a point in pixels at 96 to the inch
 */
public record Symbol(
    Optional<String> fill,
    double fillOpacity,
    String stroke,
    double widthPx,
    boolean dashed,
    String mark,
    double sizePx) {

  static Symbol line(String stroke, double widthPx) {
    return new Symbol(Optional.empty(), 0, stroke, widthPx, false, "", 0);
  }

  static Symbol area(String fill, double fillOpacity, String stroke, double widthPx) {
    return new Symbol(Optional.of(fill), fillOpacity, stroke, widthPx, false, "", 0);
  }

  static Symbol point(String mark, double sizePx, String fill, String stroke) {
    return new Symbol(Optional.of(fill), 1, stroke, 1, false, mark, sizePx);
  }

  Symbol broken() {
    return new Symbol(fill, fillOpacity, stroke, widthPx, true, mark, sizePx);
  }
}
