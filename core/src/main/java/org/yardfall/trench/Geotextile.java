package org.yardfall.trench;

/**
 * A geotextile for drainage.
 *
 * @param words what it is
 * @param woven whether it is woven
 * @param openingMm apparent opening size O95 in millimetres (ASTM D4751)
 * @param permittivityS permittivity in 1/s (ASTM D4491)
 * @param thicknessMm thickness in millimetres (ASTM D5199)
 * @param openShare non-woven: porosity; woven: open area; as a share
 * @param source where the values come from
 */
public record Geotextile(
    String words,
    boolean woven,
    double openingMm,
    double permittivityS,
    double thicknessMm,
    double openShare,
    String source) {

  /** The trade's usual fabric round a drain: needle-punched non-woven of about 8 oz/yd². */
  public static final Geotextile USUAL =
      new Geotextile(
          "non-woven geotextile, 8 oz/yd² (270 g/m²)",
          false,
          0.18,
          1.35,
          2.0,
          0.85,
          "a typical 8 oz/yd² non-woven: opening No. 80, permittivity 1.35 1/s (published);"
              + " thickness and porosity from memory");

  /** Permeability in m/s: permittivity times thickness. */
  public double permeabilityMS() {
    return permittivityS * thicknessMm / 1000;
  }
}
