package org.yardfall.site;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.geotools.referencing.crs.DefaultGeographicCRS;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Polygon;

/**
 * Makes a site of a request: reads the files it names, settles the working CRS and brings
 * everything onto the working plane.
 */
final class SiteAssembler {

  private final SiteRequest request;
  private final RasterPlanes rasters;
  private final Problems problems;
  private final List<Assumption> assumptions;
  private final List<String> warnings = new ArrayList<>();
  private final Map<CoordinateReferenceSystem, PlaneTransform> transforms = new HashMap<>();
  private WorkingCrs plane;

  private SiteAssembler(SiteRequest request, RasterPlanes rasters, Problems problems) {
    this.request = request;
    this.rasters = rasters;
    this.problems = problems;
    this.assumptions = new ArrayList<>(request.assumptions());
  }

  /**
   * The site.
   *
   * @throws BadInputException with every problem found, those gathered before included
   */
  static Site assemble(SiteRequest request, RasterPlanes rasters, Problems problems) {
    return new SiteAssembler(request, rasters, problems).assemble();
  }

  private Site assemble() {
    SiteInputs inputs = request.inputs();
    checkFiles();
    Optional<VectorLayer> parcelLayer = layer(inputs.parcels());
    String lotId = lotId(parcelLayer);
    Optional<ParcelFinder.Found> found =
        parcelLayer.flatMap(
            l ->
                problems.attempt(
                    () ->
                        ParcelFinder.find(
                            l, inputs.parcels().idField(), lotId, inputs.rightOfWay(), warnings)));
    Optional<VectorLayer> buildings = layer(inputs.buildings());
    Optional<VectorLayer> obstacles = layer(inputs.obstacles());
    Optional<VectorLayer> crossings = layer(inputs.crossings());
    Optional<VectorLayer> outlets = layer(inputs.outlets());
    Optional<VectorLayer> surfaces = layer(inputs.surfaces());
    Optional<VectorLayer> openings = layer(inputs.openings());
    Optional<VectorLayer> pinned = layer(inputs.pinned());
    Optional<VectorLayer> downspouts = layer(inputs.downspouts());
    Optional<VectorLayer> seeps = layer(inputs.seeps());
    Optional<VectorLayer> levelled = layer(inputs.levelled());
    Optional<WorkingCrs> working =
        problems.attempt(() -> workingCrs(parcelLayer, found)).flatMap(Function.identity());
    if (working.isEmpty()) {
      problems.throwIfAny();
    }
    plane = working.orElseThrow();
    List<Parcel> parcels =
        found.isEmpty() ? List.of() : onPlane(parcelLayer.orElseThrow(), found.get().parcels());
    int lot = found.map(ParcelFinder.Found::lot).orElse(-1);
    List<Outlet> placed = outlets(outlets);
    assumptions.addAll(
        OutletRulesSection.deciding(request.assumedRules(), placed, !parcels.isEmpty()));
    SiteDraft draft = new SiteDraft();
    draft.name = request.name();
    draft.crs = plane;
    draft.parcels = parcels;
    draft.lot = lot < 0 || lot >= parcels.size() ? Optional.empty() : Optional.of(parcels.get(lot));
    draft.buildings =
        Downspout.given(
            features(buildings, inputs.buildings(), GroundFeatures::buildings),
            features(downspouts, inputs.downspouts(), GroundFeatures::downspouts),
            problems);
    obstacles.ifPresent(layer -> WrittenObstacles.warn(layer, given(inputs), warnings));
    draft.obstacles = features(obstacles, inputs.obstacles(), GroundFeatures::obstacles);
    draft.crossings = features(crossings, inputs.crossings(), GroundFeatures::crossings);
    draft.outlets = placed;
    draft.surfaces = features(surfaces, inputs.surfaces(), GroundFeatures::surfaces);
    draft.openings = features(openings, inputs.openings(), GroundFeatures::openings);
    draft.soil = request.soil();
    draft.storm = request.storm();
    draft.drain = request.drain();
    draft.prices = request.prices();
    draft.elevation = request.elevation();
    draft.outletRules = request.outletRules();
    draft.pinned = features(pinned, inputs.pinned(), GroundFeatures::pinned);
    draft.seeps = features(seeps, inputs.seeps(), GroundFeatures::seeps);
    draft.levelled = features(levelled, inputs.levelled(), GroundFeatures::levelled);
    draft.assumptions = assumptions;
    draft.warnings = warnings;
    draft.inputs = inputs;
    Site site = draft.site();
    checkOutlets(site.outlets());
    if (!site.elevation().shotInput().mayShowOutlets()) {
      problems.attempt(() -> PinnedTargets.checked(site));
    }
    problems.throwIfAny();
    return site;
  }

  /** The sections whose features the written layer of obstacles may hold, as far as given. */
  private static Map<String, LayerSource> given(SiteInputs inputs) {
    Map<String, LayerSource> given = new HashMap<>();
    given.put("buildings", inputs.buildings());
    given.put("crossings", inputs.crossings());
    given.put("seeps", inputs.seeps());
    given.values().removeIf(Objects::isNull);
    return given;
  }

  private void checkFiles() {
    List<Path> files = new ArrayList<>(request.elevation().rasters());
    files.add(request.elevation().shots());
    files.add(request.storm().table());
    files.add(request.inputs().ortho());
    for (Path file : files) {
      if (file != null && !Files.isRegularFile(file)) {
        problems.add(
            file.getFileName().toString(),
            "there is no such file (" + file + ")",
            "check the path");
      }
    }
  }

  private Optional<VectorLayer> layer(LayerSource source) {
    return source == null ? Optional.empty() : problems.attempt(() -> VectorReader.read(source));
  }

  /** The lot asked for; the only parcel of a file is meant where none is named. */
  private String lotId(Optional<VectorLayer> parcels) {
    SiteInputs inputs = request.inputs();
    if (parcels.isEmpty()) {
      return inputs.lot();
    }
    if (inputs.parcels().idField() == null) {
      assumptions.add(
          new Assumption(
              "parcels.id",
              "the feature's own id or number",
              inputs.parcels().file().getFileName().toString()));
    }
    if (inputs.lot() != null) {
      return inputs.lot();
    }
    Optional<String> only = ParcelFinder.onlyId(parcels.get(), inputs.parcels().idField());
    only.ifPresent(
        id ->
            assumptions.add(
                new Assumption("parcels.lot", id, "the only parcel of " + parcels.get().name())));
    return only.orElse(null);
  }

  private Optional<WorkingCrs> workingCrs(
      Optional<VectorLayer> parcels, Optional<ParcelFinder.Found> found) {
    String named = request.inputs().crs();
    if (named != null) {
      return Optional.of(CrsLookup.of(CrsLookup.decode(named, request.source() + " site.crs")));
    }
    String override = request.elevation().crsOverride();
    if (override != null) {
      CoordinateReferenceSystem crs =
          CrsLookup.decode(override, request.source() + " elevation.crs");
      if (CrsLookup.isProjected(crs)) {
        return Optional.of(assumed(CrsLookup.of(crs), "the CRS stated for the elevation"));
      }
    } else {
      Optional<WorkingCrs> own = ofRasters(rasters::own, "the CRS of ").or(this::ofShots);
      if (own.isPresent()) {
        return own;
      }
    }
    if (parcels.isEmpty() || found.isEmpty() || found.get().parcels().isEmpty()) {
      if (request.inputs().parcels() == null && override == null) {
        Optional<WorkingCrs> zone =
            ofRasters(rasters::zone, "no CRS to measure in is given: the UTM zone of ");
        if (zone.isPresent()) {
          return zone;
        }
      }
      if (request.inputs().parcels() == null && request.elevation().given()) {
        problems.add(
            request.source() + " site.crs",
            "the working CRS cannot be told: the elevation has no projected one",
            "give site.crs, such as EPSG:26915");
      }
      return Optional.empty();
    }
    return Optional.of(ofPlace(parcels.get(), found.get()));
  }

  /** The plane of the first raster that has one. */
  private Optional<WorkingCrs> ofRasters(
      Function<Path, Optional<WorkingCrs>> plane, String source) {
    for (Path raster : request.elevation().rasters()) {
      Optional<WorkingCrs> found =
          Files.isRegularFile(raster) ? plane.apply(raster) : Optional.empty();
      if (found.isPresent()) {
        return Optional.of(assumed(found.get(), source + raster.getFileName()));
      }
    }
    return Optional.empty();
  }

  /** The plane of the shots, where they are all the ground there is. */
  private Optional<WorkingCrs> ofShots() {
    Path shots = request.elevation().shots();
    boolean alone = request.elevation().rasters().isEmpty() && shots != null;
    return alone && Files.isRegularFile(shots)
        ? rasters.ofShots(shots).map(crs -> assumed(crs, "the CRS of " + shots.getFileName()))
        : Optional.empty();
  }

  private WorkingCrs ofPlace(VectorLayer parcels, ParcelFinder.Found found) {
    CoordinateReferenceSystem own = parcels.crs().orElseThrow();
    Polygon outline = found.parcels().get(Math.max(0, found.lot())).outline();
    Coordinate degrees =
        PlaneTransform.between(own, DefaultGeographicCRS.WGS84)
            .apply(outline.getEnvelopeInternal().centre());
    return assumed(CrsLookup.utm(degrees.x, degrees.y), "the UTM zone of the parcels");
  }

  private WorkingCrs assumed(WorkingCrs crs, String source) {
    assumptions.add(new Assumption("site.crs", crs.name(), source));
    return crs;
  }

  private List<Parcel> onPlane(VectorLayer layer, List<Parcel> parcels) {
    List<Parcel> moved = new ArrayList<>();
    problems.attempt(
        () -> {
          PlaneTransform transform = toPlane(layer);
          for (Parcel parcel : parcels) {
            Polygon outline = (Polygon) transform.apply(parcel.outline());
            moved.add(new Parcel(parcel.id(), outline, parcel.rightOfWay()));
          }
          return moved;
        });
    return moved;
  }

  private <T> List<T> features(
      Optional<VectorLayer> layer, LayerSource source, Function<GroundFeatures, List<T>> maker) {
    return layer
        .flatMap(
            l ->
                problems.attempt(
                    () ->
                        maker.apply(
                            new GroundFeatures(
                                FeatureValues.of(l, source, toPlane(l), warnings, problems),
                                request.drain(),
                                assumptions))))
        .orElse(List.of());
  }

  private PlaneTransform toPlane(VectorLayer layer) {
    CoordinateReferenceSystem crs = layer.crs().orElseThrow();
    PlaneTransform known = transforms.get(crs);
    if (known == null) {
      known = PlaneTransform.toPlane(crs, plane);
      transforms.put(crs, known);
      known.warning().ifPresent(warning -> warnings.add(layer.name() + ": " + warning));
      if (known.warning().isEmpty() && known.shiftsDatum()) {
        assumptions.add(
            new Assumption("datum shift of " + layer.name(), known.operation(), "EPSG register"));
      }
    }
    return known;
  }

  private List<Outlet> outlets(Optional<VectorLayer> layer) {
    List<Outlet> outlets =
        new ArrayList<>(features(layer, request.inputs().outlets(), GroundFeatures::outlets));
    for (SiteRequest.PlacedOutlet outlet : request.outlets()) {
      outlets.add(
          new Outlet(
              outlet.id(),
              outlet.kind(),
              new org.locationtech.jts.geom.CoordinateXY(
                  plane.toMetres(outlet.easting()), plane.toMetres(outlet.northing())),
              outlet.invertM(),
              outlet.waterLevelM(),
              outlet.lidM(),
              outlet.permitNote(),
              outlet.usualLevelM()));
    }
    return outlets;
  }

  private void checkOutlets(List<Outlet> outlets) {
    Set<String> ids = new LinkedHashSet<>();
    Map<Coordinate, String> places = new HashMap<>();
    for (Outlet outlet : outlets) {
      if (!ids.add(outlet.id())) {
        problems.add(
            request.source() + " outlets",
            "two outlets bear the id '" + outlet.id() + "'",
            "give each its own");
      }
      String there = places.putIfAbsent(outlet.at(), outlet.id());
      if (there != null) {
        problems.add(
            request.source() + " outlets",
            "the outlets " + there + " and " + outlet.id() + " are at the same point",
            "keep one of them");
      }
      double invert = outlet.invertM().orElse(Double.NEGATIVE_INFINITY);
      if (outlet.lidM().orElse(Double.POSITIVE_INFINITY) < invert) {
        problems.add(
            request.source() + " outlet " + outlet.id(),
            String.format(
                Locale.ROOT,
                "its lid, %.3f m, lies below its invert, %.3f m, so water would have to climb into it",
                outlet.lidM().getAsDouble(),
                invert),
            "check both levels");
      }
    }
  }
}
