"""
Open the files of a run as a desktop GIS does, and say what is not as it should be.

Run by `.ci/desktop-gis` with Debian's own Python: its GIS cannot be imported in ours.
"""

import json
import shutil
import sqlite3
import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory

from qgis.core import (
    QgsApplication,
    QgsCoordinateTransformContext,
    QgsFeature,
    QgsMapLayer,
    QgsMapRendererParallelJob,
    QgsMapSettings,
    QgsProviderRegistry,
    QgsProviderSublayerDetails,
    QgsRasterLayer,
    QgsRenderContext,
    QgsVectorLayer,
)
from qgis.PyQt.QtCore import QSize, Qt

ENDINGS = (".gpkg", ".kml", ".geojson", ".gpx", ".tif")
CLASS, LABEL = "class_ahead", "block_id"
STYLES = "SELECT f_table_name, styleSLD FROM layer_styles WHERE useAsDefault = 1"


def layers_of(path: Path) -> Iterator[QgsMapLayer]:
    """Yield each layer of a file, opened as a user opens it."""
    options = QgsProviderSublayerDetails.LayerOptions(QgsCoordinateTransformContext())
    for found in QgsProviderRegistry.instance().querySublayers(str(path)):
        yield found.toLayer(options)


def faults_of_file(path: Path) -> Iterator[str]:
    """Yield in words what keeps a file from being read."""
    layers = list(layers_of(path))
    if not layers:
        yield "does not open"
    for layer in layers:
        if not layer.isValid():
            yield f"layer {layer.name()}: is not valid: {layer.error().summary()}"
            continue
        if not layer.crs().isValid():
            yield f"layer {layer.name()}: has no coordinate system"
        if not is_filled(layer):
            yield f"layer {layer.name()}: opens with nothing in it"


def is_filled(layer: QgsMapLayer) -> bool:
    """Return whether a layer has features, or cells with more than one value."""
    if isinstance(layer, QgsRasterLayer):
        seen = layer.dataProvider().bandStatistics(1)
        print(f"  {layer.name()}: {seen.minimumValue:.3g} to {seen.maximumValue:.3g}")
        return seen.minimumValue < seen.maximumValue
    print(f"  {layer.name()}: {layer.featureCount()} features")
    return layer.featureCount() > 0


def painted(layer: QgsVectorLayer, words: list[str]) -> dict[str, str]:
    """Return the colour in which a feature of each class would be painted."""
    colours = {}
    renderer, context = layer.renderer().clone(), QgsRenderContext()
    renderer.startRender(context, layer.fields())
    for word in words:
        feature = QgsFeature(layer.fields())
        feature[CLASS] = word
        context.expressionContext().setFeature(feature)
        colours[word] = "+".join(
            symbol.color().name() for symbol in renderer.symbolsForFeature(feature, context)
        )
    renderer.stopRender(context)
    return colours


def drawn(layer: QgsVectorLayer) -> set[str]:
    """Return the colours that a picture of the layer holds."""
    settings = QgsMapSettings()
    settings.setLayers([layer])
    settings.setDestinationCrs(layer.crs())
    settings.setExtent(layer.extent())
    settings.setOutputSize(QSize(1000, 1000))
    job = QgsMapRendererParallelJob(settings)
    job.start()
    job.waitForFinished()
    picture = job.renderedImage()
    return {
        picture.pixelColor(x, y).name()
        for x in range(picture.width())
        for y in range(picture.height())
    }


def faults_of_blocks(layer: QgsVectorLayer, classes: dict[str, str]) -> Iterator[str]:
    """Yield in words how the blocks that were opened do not look as on the page."""
    kind = layer.renderer().type()
    if kind != "categorizedSymbol" or layer.renderer().classAttribute() != CLASS:
        yield f"does not open in the classes of {CLASS}, but as {kind}"
    in_key = [str(one.value()) for one in getattr(layer.renderer(), "categories", list)()]
    if set(in_key) != set(classes):
        yield f"classes of its key: {in_key}, expected {list(classes)}"
    if (found := painted(layer, list(classes))) != classes:
        yield f"colours of the classes: {found}, expected {classes}"
    labels = layer.labeling().settings() if layer.labeling() else None
    if not (layer.labelsEnabled() and labels and labels.drawLabels and labels.fieldName == LABEL):
        yield f"has no labels of {LABEL}"
    seen = {classes[feature[CLASS]] for feature in layer.getFeatures()}
    if missing := seen - drawn(layer):
        yield f"colours that its picture lacks: {sorted(missing)}"


def faults_of_coolest(layer: QgsVectorLayer, blue: str) -> Iterator[str]:
    """Yield in words how the coolest tenths that were opened are not hatched."""
    symbol = layer.renderer().symbol() if layer.renderer().type() == "singleSymbol" else None
    if symbol is None or symbol.color().name() != blue:
        yield f"is not drawn in {blue}"
    elif symbol.symbolLayer(0).brushStyle() != Qt.BDiagPattern:
        yield "is not hatched"


def faults_of_sld(layer: QgsVectorLayer, sld: str, look: dict, aside: Path) -> Iterator[str]:
    """Yield in words how the open description of the style cannot be used."""
    path = aside / f"{layer.name()}.sld"
    path.write_text(sld, "utf-8")
    message, is_loaded = layer.loadSldStyle(str(path))
    if not is_loaded:
        yield f"its SLD does not load: {message}"
    elif layer.name() == look["blocks"]:
        if (found := painted(layer, list(look["classes"]))) != look["classes"]:
            yield f"colours of its SLD: {found}, expected {look['classes']}"
    elif layer.renderer().symbols(QgsRenderContext())[0].color().name() != look["blue"]:
        yield f"its SLD is not in {look['blue']}"


def styles_in(path: Path) -> dict[str, str]:
    """Return the SLD of each layer's default style that a GeoPackage holds."""
    with closing(sqlite3.connect(path)) as connection:
        try:
            return dict(connection.execute(STYLES))
        except sqlite3.OperationalError:  # no table of styles
            return {}


def faults_of_layer(layer: QgsVectorLayer, look: dict) -> Iterator[str]:
    """Yield in words how a layer of the GeoPackage is not painted as it should be."""
    if layer.name() == look["blocks"]:
        yield from faults_of_blocks(layer, look["classes"])
    elif layer.name() == look["coolest"]:
        yield from faults_of_coolest(layer, look["blue"])
    else:
        yield "is a new layer: write down here how it should look"


def faults_of_geopackage(path: Path, look: dict, aside: Path) -> Iterator[str]:
    """Yield in words how a GeoPackage does not bring its looks along."""
    styles, layers = styles_in(path), {layer.name(): layer for layer in layers_of(path)}
    for name in {look["blocks"], look["coolest"]} - set(layers):
        yield f"layer {name}: is missing"
    for name, layer in layers.items():
        told = list(faults_of_layer(layer, look))
        if name in styles:
            told += faults_of_sld(layer, styles[name], look, aside)
        else:
            told.append("has no default style in the file")
        yield from (f"layer {name}: {words}" for words in told)


def faults(folder: Path, look: dict, aside: Path) -> Iterator[str]:
    """Yield in words everything that is wrong with the files of a folder."""
    for ending in ENDINGS:
        paths = sorted(folder.glob(f"*{ending}"))
        if not paths:
            yield f"no *{ending} in the folder"
        for there in paths:
            # A copy, because opening a GeoPackage may write into it.
            path = Path(shutil.copy(there, aside))
            print(path.name)
            told = list(faults_of_file(path))
            if ending == ".gpkg":
                told += faults_of_geopackage(path, look, aside)
            yield from (f"{path.name}: {words}" for words in told)


def main() -> int:
    """Return 0 if every file opens as it should, else 1."""
    folder, look = Path(sys.argv[1]), json.loads(sys.argv[2])
    with TemporaryDirectory() as aside:
        found = list(faults(folder, look, Path(aside)))
    for words in found:
        print(f"FAULT {words}", file=sys.stderr)
    print(f".ci/desktop-gis: {len(found)} faults")
    return 1 if found else 0


if __name__ == "__main__":
    application = QgsApplication([], False)  # noqa: FBT003 - the library's own argument: no window
    application.initQgis()
    code = main()
    application.exitQgis()
    sys.exit(code)
