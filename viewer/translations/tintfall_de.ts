<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de">
<context>
    <name>tintfall::viewer::AddSheetDialog</name>
    <message>
        <source>Add a printed sheet</source>
        <translation>Ein gedrucktes Blatt aufnehmen</translation>
    </message>
    <message>
        <source>Label of the sheet</source>
        <translation>Kennzeichen des Blattes</translation>
    </message>
    <message>
        <source>as written on it</source>
        <translation>wie es darauf steht</translation>
    </message>
    <message>
        <source>Chart of the sheet</source>
        <translation>Vorlage des Blattes</translation>
    </message>
    <message>
        <source>File of measured values</source>
        <translation>Datei mit gemessenen Werten</translation>
    </message>
    <message>
        <source>nominal colours</source>
        <translation>Sollfarben</translation>
    </message>
    <message>
        <source>Choose …</source>
        <translation>Wählen …</translation>
    </message>
    <message>
        <source>Choose the file of measured values</source>
        <translation>Die Datei mit gemessenen Werten wählen</translation>
    </message>
    <message>
        <source>CGATS or table (*.txt *.csv *.it8 *);;All files (*)</source>
        <translation>CGATS oder Tabelle (*.txt *.csv *.it8 *);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Day of printing</source>
        <translation>Tag des Drucks</translation>
    </message>
    <message>
        <source>year-month-day, or empty</source>
        <translation>Jahr-Monat-Tag oder leer</translation>
    </message>
    <message>
        <source>replace the sheet of this label</source>
        <translation>das Blatt mit diesem Kennzeichen ersetzen</translation>
    </message>
    <message>
        <source>Replace the sheet of this label</source>
        <translation>Das Blatt mit diesem Kennzeichen ersetzen</translation>
    </message>
    <message>
        <source>Why it could not be added</source>
        <translation>Warum es nicht aufgenommen werden konnte</translation>
    </message>
    <message>
        <source>Add</source>
        <translation>Aufnehmen</translation>
    </message>
    <message>
        <source>Label</source>
        <translation>Kennzeichen</translation>
    </message>
    <message>
        <source>Sheet</source>
        <translation>Blatt</translation>
    </message>
    <message>
        <source>Measured values</source>
        <translation>Gemessene Werte</translation>
    </message>
    <message>
        <source>Printed on</source>
        <translation>Gedruckt am</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::BeforeAfter</name>
    <message>
        <source>Before and after, under one white</source>
        <translation>Vorher und nachher, unter einem Weiß</translation>
    </message>
    <message>
        <source>Before: %1 s; after: %2 s</source>
        <translation>Vorher: %1 s; nachher: %2 s</translation>
    </message>
    <message>
        <source>Add the photos of one reaction: one before the drop, then as many as you like. Draw the spot, a water drop and untreated tissue on the page 'One photo' first.</source>
        <translation>Füge die Fotos einer Reaktion hinzu: eines vor dem Tropfen, dann beliebig viele. Zeichne vorher auf der Seite „Ein Foto“ den Fleck, einen Wassertropfen und unbehandeltes Gewebe ein.</translation>
    </message>
    <message>
        <source>after</source>
        <translation>nachher</translation>
    </message>
    <message>
        <source>before</source>
        <translation>vorher</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::BiasPlot</name>
    <message>
        <source>Bias of each collector</source>
        <translation>Abweichung je Sammler</translation>
    </message>
    <message>
        <source>Records of two collectors or more, named in them, show here how each reads against the others.</source>
        <translation>Protokolle von mindestens zwei darin genannten Sammlern zeigen hier, wie jeder gegenüber den anderen misst.</translation>
    </message>
    <message>
        <source>reads lower or higher than the value to compare with, 95 % interval</source>
        <translation>liest niedriger oder höher als der Vergleichswert, 95-%-Intervall</translation>
    </message>
</context>
<context>
    <name>Budget</name>
    <message>
        <source>soil or another deposit on it</source>
        <translation>Erde oder ein anderer Abdruck darauf</translation>
    </message>
    <message>
        <source>brush it off, or draw the region clear of it</source>
        <translation>abbürsten oder den Bereich frei davon zeichnen</translation>
    </message>
    <message>
        <source>edge of the deposit</source>
        <translation>Rand des Abdrucks</translation>
    </message>
    <message>
        <source>a sharper or closer photo</source>
        <translation>schärferem oder näherem Foto</translation>
    </message>
    <message>
        <source>shadow or soil near the reading</source>
        <translation>Schatten oder Schmutz bei der Messung</translation>
    </message>
    <message>
        <source>no shadow&apos;s edge over the sheet, clean paper</source>
        <translation>keine Schattenkante auf dem Blatt, sauberes Papier</translation>
    </message>
    <message>
        <source>glow of the paper</source>
        <translation>Leuchten des Papiers</translation>
    </message>
    <message>
        <source>paper without optical brightener</source>
        <translation>Papier ohne optische Aufheller</translation>
    </message>
    <message>
        <source>brightness changed by the camera</source>
        <translation>von der Kamera veränderte Helligkeit</translation>
    </message>
    <message>
        <source>HDR and scene modes off, or raw</source>
        <translation>HDR und Motivprogramme aus, oder Rohdaten</translation>
    </message>
    <message>
        <source>printed colours against grown ones</source>
        <translation>gedruckte Farben gegen gewachsene</translation>
    </message>
    <message>
        <source>daylight or lamps of high colour rendering</source>
        <translation>Tageslicht oder Lampen mit hoher Farbwiedergabe</translation>
    </message>
    <message>
        <source>the photo&apos;s light stated; daylight or lamps of high colour rendering</source>
        <translation>Angabe, welches Licht es war; Tageslicht oder Lampen mit hoher Farbwiedergabe</translation>
    </message>
    <message>
        <source>light across the sheet</source>
        <translation>Licht über das Blatt hin</translation>
    </message>
    <message>
        <source>even light, clean paper round the opening</source>
        <translation>gleichmäßigem Licht, sauberem Papier um die Öffnung</translation>
    </message>
    <message>
        <source>fit of the camera</source>
        <translation>Anpassung der Kamera</translation>
    </message>
    <message>
        <source>keep every patch usable</source>
        <translation>lauter brauchbaren Feldern</translation>
    </message>
    <message>
        <source>values of the sheet</source>
        <translation>Werte des Blattes</translation>
    </message>
    <message>
        <source>have the sheet measured</source>
        <translation>einem gemessenen Blatt</translation>
    </message>
    <message>
        <source>glints</source>
        <translation>Glanzlichter</translation>
    </message>
    <message>
        <source>soft light from both sides</source>
        <translation>weichem Licht von beiden Seiten</translation>
    </message>
    <message>
        <source>black level</source>
        <translation>Schwarzwert</translation>
    </message>
    <message>
        <source>more light for dark specimens</source>
        <translation>mehr Licht bei dunklen Proben</translation>
    </message>
    <message>
        <source>noise of the region</source>
        <translation>Rauschen des Bereichs</translation>
    </message>
    <message>
        <source>a larger region, a closer photo</source>
        <translation>größerem Bereich, näherem Foto</translation>
    </message>
    <message>
        <source>height above the sheet</source>
        <translation>Höhe über dem Blatt</translation>
    </message>
    <message>
        <source>level with the paper, or say the height</source>
        <translation>gleicher Höhe wie das Papier, oder angegebener Höhe</translation>
    </message>
    <message>
        <source>thin layer</source>
        <translation>dünne Schicht</translation>
    </message>
    <message>
        <source>a thicker deposit, or two backings</source>
        <translation>dickerem Abdruck oder zwei Untergründen</translation>
    </message>
    <message>
        <source>measured values of this sheet, which are missing</source>
        <translation>gemessenen Werten dieses Blatts, die fehlen</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::BudgetBars</name>
    <message>
        <source>Parts of the uncertainty</source>
        <translation>Anteile der Unsicherheit</translation>
    </message>
    <message>
        <source>shorter with: %1</source>
        <translation>kürzer mit: %1</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::ChangeCurve</name>
    <message>
        <source>Curve of change</source>
        <translation>Kurve der Änderung</translation>
    </message>
    <message>
        <source>No spot or bruise yet.</source>
        <translation>Noch kein Fleck, keine Druckstelle.</translation>
    </message>
    <message>
        <source>seconds from the application</source>
        <translation>Sekunden seit dem Auftragen</translation>
    </message>
    <message>
        <source>change ΔE00 (± k = 2)</source>
        <translation>Änderung ΔE00 (± k = 2)</translation>
    </message>
    <message>
        <source>%1: interval</source>
        <translation>%1: Intervall</translation>
    </message>
    <message>
        <source>%1: ΔE00 %2 after %3 s</source>
        <translation>%1: ΔE00 %2 nach %3 s</translation>
    </message>
    <message>
        <source>%1: readings, interval</source>
        <translation>%1: Messungen, Intervall</translation>
    </message>
    <message>
        <source>%1: fit</source>
        <translation>%1: Anpassung</translation>
    </message>
    <message>
        <source>%1: onset %2 s (%3 to %4 s, 95 %)</source>
        <translation>%1: Beginn %2 s (%3 bis %4 s, 95 %)</translation>
    </message>
    <message>
        <source>%1: half done at %2 s (%3 to %4 s, 95 %)</source>
        <translation>%1: zur Hälfte bei %2 s (%3 bis %4 s, 95 %)</translation>
    </message>
    <message>
        <source>onset %1 s</source>
        <translation>Beginn %1 s</translation>
    </message>
    <message>
        <source>half at %1 s</source>
        <translation>Hälfte bei %1 s</translation>
    </message>
    <message>
        <source>seconds from the first photo</source>
        <translation>Sekunden ab dem ersten Foto</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::CheckModel</name>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>Measured</source>
        <translation>Gemessen</translation>
    </message>
    <message>
        <source>What to do</source>
        <translation>Was tun</translation>
    </message>
</context>
<context>
    <name>Checks</name>
    <message>
        <source>Sharpness</source>
        <translation>Schärfe</translation>
    </message>
    <message>
        <source>Exposure</source>
        <translation>Belichtung</translation>
    </message>
    <message>
        <source>Glare</source>
        <translation>Spiegelung</translation>
    </message>
    <message>
        <source>Kind of light</source>
        <translation>Art des Lichts</translation>
    </message>
    <message>
        <source>Even light</source>
        <translation>Gleichmäßiges Licht</translation>
    </message>
    <message>
        <source>Size of the sheet</source>
        <translation>Größe des Blattes</translation>
    </message>
    <message>
        <source>Tilt</source>
        <translation>Neigung</translation>
    </message>
    <message>
        <source>Flatness</source>
        <translation>Ebenheit</translation>
    </message>
    <message>
        <source>Height of the specimen</source>
        <translation>Höhe der Probe</translation>
    </message>
    <message>
        <source>Values of the sheet</source>
        <translation>Werte des Blattes</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::ColorPlane</name>
    <message>
        <source>Diagram of a* and b* with a scale of L*</source>
        <translation>Diagramm von a* und b* mit einer Skala von L*</translation>
    </message>
    <message>
        <source>No reading yet.</source>
        <translation>Noch keine Messung.</translation>
    </message>
    <message>
        <source>%1 readings; the chosen one at L* %2, a* %3, b* %4, %5.</source>
        <translation>%1 Messungen; die gewählte bei L* %2, a* %3, b* %4, %5.</translation>
    </message>
    <message>
        <source>No reading yet</source>
        <translation>Noch keine Messung</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::ComparePage</name>
    <message>
        <source>Side by side</source>
        <translation>Nebeneinander</translation>
    </message>
    <message>
        <source>Add records …</source>
        <translation>Protokolle hinzufügen …</translation>
    </message>
    <message>
        <source>Ctrl+Shift+A</source>
        <translation>Ctrl+Shift+A</translation>
    </message>
    <message>
        <source>Add readings from record files</source>
        <translation>Messungen aus Protokolldateien hinzufügen</translation>
    </message>
    <message>
        <source>Records</source>
        <translation>Protokolle</translation>
    </message>
    <message>
        <source>Records (*.json)</source>
        <translation>Protokolle (*.json)</translation>
    </message>
    <message>
        <source>Take all away</source>
        <translation>Alle wegnehmen</translation>
    </message>
    <message>
        <source>Ctrl+Shift+X</source>
        <translation>Ctrl+Shift+X</translation>
    </message>
    <message>
        <source>Empty the page</source>
        <translation>Die Seite leeren</translation>
    </message>
    <message>
        <source>Order of the readings</source>
        <translation>Reihenfolge der Messungen</translation>
    </message>
    <message>
        <source>as given</source>
        <translation>wie hinzugefügt</translation>
    </message>
    <message>
        <source>by item</source>
        <translation>nach Fund</translation>
    </message>
    <message>
        <source>by collector</source>
        <translation>nach Sammler</translation>
    </message>
    <message>
        <source>light to dark</source>
        <translation>von hell nach dunkel</translation>
    </message>
    <message>
        <source>by hue</source>
        <translation>nach Buntton</translation>
    </message>
    <message>
        <source>Order</source>
        <translation>Reihenfolge</translation>
    </message>
    <message>
        <source>Keep together what cannot be told apart</source>
        <translation>Nicht Unterscheidbares zusammenhalten</translation>
    </message>
    <message>
        <source>Colours side by side</source>
        <translation>Farben nebeneinander</translation>
    </message>
    <message>
        <source>Verdicts of all pairs</source>
        <translation>Urteile aller Paare</translation>
    </message>
    <message>
        <source>What all say, and how far each is from it</source>
        <translation>Was alle sagen, und wie weit jeder davon liegt</translation>
    </message>
    <message>
        <source>Bias of each collector</source>
        <translation>Abweichung je Sammler</translation>
    </message>
    <message>
        <source>Ways to compare</source>
        <translation>Arten des Vergleichs</translation>
    </message>
    <message>
        <source>Pairs</source>
        <translation>Paare</translation>
    </message>
    <message>
        <source>Consensus</source>
        <translation>Konsens</translation>
    </message>
    <message>
        <source>Bias</source>
        <translation>Abweichung</translation>
    </message>
    <message>
        <source>Diagram</source>
        <translation>Diagramm</translation>
    </message>
    <message>
        <source>What to know about these records</source>
        <translation>Was man über diese Protokolle wissen sollte</translation>
    </message>
    <message>
        <source>ΔE00 </source>
        <translation>ΔE00 </translation>
    </message>
    <message>
        <source>no difference at all</source>
        <translation>gar kein Unterschied</translation>
    </message>
    <message>
        <source>Difference that still counts as the same</source>
        <translation>Unterschied, der noch als gleich gilt</translation>
    </message>
    <message>
        <source>Same means</source>
        <translation>Gleich heißt</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::ConsensusModel</name>
    <message>
        <source>all together</source>
        <translation>alle zusammen</translation>
    </message>
    <message>
        <source>too few to judge by</source>
        <translation>zu wenige für ein Urteil</translation>
    </message>
    <message>
        <source>%1 from the others</source>
        <translation>%1 gegenüber den anderen</translation>
    </message>
    <message>
        <source>Item</source>
        <translation>Fund</translation>
    </message>
    <message>
        <source>Who</source>
        <translation>Wer</translation>
    </message>
    <message>
        <source>Colour, or distance from it</source>
        <translation>Farbe, oder Abstand davon</translation>
    </message>
    <message>
        <source>Agreement</source>
        <translation>Übereinstimmung</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::DifferenceScale</name>
    <message>
        <source>Scale of the difference picture</source>
        <translation>Skala des Unterschiedsbildes</translation>
    </message>
    <message>
        <source>to ΔE00 </source>
        <translation>bis ΔE00 </translation>
    </message>
    <message>
        <source>Difference at the pale end of the scale</source>
        <translation>Unterschied am hellen Ende der Skala</translation>
    </message>
    <message>
        <source>ΔE00 0</source>
        <translation>ΔE00 0</translation>
    </message>
</context>
<context>
    <name>DocumentCommands</name>
    <message>
        <source>Draw region</source>
        <translation>Bereich zeichnen</translation>
    </message>
    <message>
        <source>Remove region</source>
        <translation>Bereich entfernen</translation>
    </message>
    <message>
        <source>Duplicate region</source>
        <translation>Bereich verdoppeln</translation>
    </message>
    <message>
        <source>Move region</source>
        <translation>Bereich verschieben</translation>
    </message>
    <message>
        <source>Reshape region</source>
        <translation>Bereich umformen</translation>
    </message>
    <message>
        <source>Two regions cannot both be called '%1'.</source>
        <translation>Zwei Bereiche können nicht beide „%1“ heißen.</translation>
    </message>
    <message>
        <source>Choose another name.</source>
        <translation>Wähle einen anderen Namen.</translation>
    </message>
    <message>
        <source>Rename region</source>
        <translation>Bereich umbenennen</translation>
    </message>
    <message>
        <source>Change kind of region</source>
        <translation>Art des Bereichs ändern</translation>
    </message>
    <message>
        <source>Find specimens again</source>
        <translation>Proben erneut suchen</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::GuidePage</name>
    <message>
        <source>Guide</source>
        <translation>Anleitung</translation>
    </message>
    <message>
        <source>From a sheet of paper to a colour you can quote</source>
        <translation>Vom Blatt Papier zur Farbe, die man angeben kann</translation>
    </message>
    <message>
        <source>3  Light and camera</source>
        <translation>3  Licht und Kamera</translation>
    </message>
    <message>
        <source>Flat on a board: a curled sheet stands nearer to the lamp at its rims.</source>
        <translation>Flach auf einem Brett: Ein gewölbtes Blatt ist am Rand näher an der Lampe.</translation>
    </message>
    <message>
        <source>The specimen level with the paper: what stands higher gets more light.</source>
        <translation>Die Probe auf Höhe des Papiers: Was höher steht, bekommt mehr Licht.</translation>
    </message>
    <message>
        <source>A window from one side, white card on the other. One kind of light only.</source>
        <translation>Ein Fenster von der einen, weißer Karton auf der anderen Seite. Nur eine Art Licht.</translation>
    </message>
    <message>
        <source>Keep your shadow, coloured sleeves and leaves out of the light.</source>
        <translation>Eigenen Schatten, farbige Ärmel und Laub aus dem Licht halten.</translation>
    </message>
    <message>
        <source>Camera parallel to the sheet, 30 to 40 cm away, main lens.</source>
        <translation>Kamera parallel zum Blatt, 30 bis 40 cm entfernt, Hauptobjektiv.</translation>
    </message>
    <message>
        <source>Avoid: flash, patches of sun, lamp and window together, glossy paper, foil that mirrors the window, glass over the deposit, filters and beauty modes, sending the photo through messengers that shrink it.</source>
        <translation>Vermeiden: Blitz, Sonnenflecken, Lampe und Fenster zugleich, glänzendes Papier, Folie, die das Fenster spiegelt, Glas über dem Abdruck, Filter und Verschönerung, Versand über Dienste, die das Foto verkleinern.</translation>
    </message>
    <message>
        <source>4  Before you open a reagent</source>
        <translation>4  Bevor du ein Reagenz öffnest</translation>
    </message>
    <message>
        <source>Potassium hydroxide and ammonia burn skin and eyes; acids too; phenol and aniline are poisonous through the skin. Read the label and the safety data sheet, wear goggles and gloves, air the room, keep children and animals away, and take waste to a collection point. Where label, law or an expert say otherwise, they are right.</source>
        <translation>Kalilauge und Ammoniak verätzen Haut und Augen, Säuren auch; Phenol und Anilin vergiften durch die Haut. Lies Etikett und Sicherheitsdatenblatt, trage Schutzbrille und Handschuhe, lüfte, halte Kinder und Tiere fern und bringe Reste zur Sammelstelle. Wo Etikett, Gesetz oder Fachleute anderes sagen, haben sie recht.</translation>
    </message>
    <message>
        <source>What a reagent has touched is waste: never eat or keep it. A drop or a bruise is no test for poison.</source>
        <translation>Was ein Reagenz berührt hat, ist Abfall: nie essen oder aufheben. Ein Tropfen oder eine Druckstelle ist keine Giftprobe.</translation>
    </message>
    <message>
        <source>Open a photo</source>
        <translation>Ein Foto öffnen</translation>
    </message>
    <message>
        <source>%1 – %2 (%3 × %4 mm)</source>
        <translation>%1 – %2 (%3 × %4 mm)</translation>
    </message>
    <message>
        <source>1  Print a sheet</source>
        <translation>1  Ein Blatt drucken</translation>
    </message>
    <message>
        <source>Sheet to print</source>
        <translation>Blatt zum Drucken</translation>
    </message>
    <message>
        <source>Label of this print</source>
        <translation>Kennzeichen dieses Drucks</translation>
    </message>
    <message>
        <source>for example A5-03; empty leaves a line to write on</source>
        <translation>zum Beispiel A5-03; leer bleibt eine Linie zum Beschriften</translation>
    </message>
    <message>
        <source>Date of this print</source>
        <translation>Datum dieses Drucks</translation>
    </message>
    <message>
        <source>Sheet</source>
        <translation>Blatt</translation>
    </message>
    <message>
        <source>Label</source>
        <translation>Kennzeichen</translation>
    </message>
    <message>
        <source>Date</source>
        <translation>Datum</translation>
    </message>
    <message>
        <source>Matt white paper, best quality, every 'enhancement' off, scale 100 % or 'actual size'.</source>
        <translation>Mattes weißes Papier, beste Qualität, jede „Verbesserung“ aus, Maßstab 100 % oder „tatsächliche Größe“.</translation>
    </message>
    <message>
        <source>Print …</source>
        <translation>Drucken …</translation>
    </message>
    <message>
        <source>Print the sheet</source>
        <translation>Das Blatt drucken</translation>
    </message>
    <message>
        <source>Save as PDF, SVG or PNG …</source>
        <translation>Als PDF, SVG oder PNG speichern …</translation>
    </message>
    <message>
        <source>Save the sheet as a file</source>
        <translation>Das Blatt als Datei speichern</translation>
    </message>
    <message>
        <source>What became of the sheet</source>
        <translation>Was aus dem Blatt wurde</translation>
    </message>
    <message>
        <source>2  Check its size</source>
        <translation>2  Die Größe prüfen</translation>
    </message>
    <message>
        <source>Lay a good ruler along the printed one. How long are its 50 mm?</source>
        <translation>Lege ein gutes Lineal an das gedruckte. Wie lang sind dessen 50 mm?</translation>
    </message>
    <message>
        <source> mm</source>
        <translation> mm</translation>
    </message>
    <message>
        <source>Measured length of the printed 50 mm</source>
        <translation>Gemessene Länge der gedruckten 50 mm</translation>
    </message>
    <message>
        <source>Is the print true to size?</source>
        <translation>Ist der Druck maßhaltig?</translation>
    </message>
    <message>
        <source>Then let it dry for a day, cut the opening, fix it to stiff board. If somebody can measure its patches with a spectrophotometer, the readings gain more than from anything else.</source>
        <translation>Dann einen Tag trocknen lassen, die Öffnung ausschneiden, auf steife Pappe kleben. Wenn jemand die Felder mit einem Spektralphotometer messen kann, gewinnen die Messungen mehr als durch alles andere.</translation>
    </message>
    <message>
        <source>True to size.</source>
        <translation>Maßhaltig.</translation>
    </message>
    <message>
        <source>Printed at %1 % of its size: print again with 'actual size' or 100 %, or set %2 % where the printer allows it.</source>
        <translation>Mit %1 % der Größe gedruckt: noch einmal mit „tatsächliche Größe“ oder 100 % drucken, oder %2 % einstellen, wo der Drucker es erlaubt.</translation>
    </message>
    <message>
        <source>Save the sheet</source>
        <translation>Das Blatt speichern</translation>
    </message>
    <message>
        <source>PDF (*.pdf);;SVG (*.svg);;PNG (*.png)</source>
        <translation>PDF (*.pdf);;SVG (*.svg);;PNG (*.png)</translation>
    </message>
    <message>
        <source>Saved: %1</source>
        <translation>Gespeichert: %1</translation>
    </message>
    <message>
        <source>Drawing the sheet …</source>
        <translation>Das Blatt wird gezeichnet …</translation>
    </message>
    <message>
        <source>The sheet is larger than the page; it was not printed. Choose larger paper or a smaller sheet.</source>
        <translation>Das Blatt ist größer als die Seite und wurde nicht gedruckt. Wähle größeres Papier oder ein kleineres Blatt.</translation>
    </message>
    <message>
        <source>The label is too long for its field; the sheet shows only its beginning.</source>
        <translation>Das Kennzeichen ist zu lang für sein Feld; das Blatt zeigt nur seinen Anfang.</translation>
    </message>
    <message>
        <source>Sent to the printer at 100 %. Check its size now.</source>
        <translation>Mit 100 % an den Drucker geschickt. Prüfe jetzt die Größe.</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::IssueModel</name>
    <message>
        <source>Note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>Advice</source>
        <translation>Rat</translation>
    </message>
    <message>
        <source>Problem</source>
        <translation>Problem</translation>
    </message>
    <message>
        <source> (%1 times)</source>
        <translation> (%1-mal)</translation>
    </message>
    <message>
        <source>Weight</source>
        <translation>Gewicht</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>What to do</source>
        <translation>Was tun</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::Magnifier</name>
    <message>
        <source>Colour under the pointer</source>
        <translation>Farbe unter dem Zeiger</translation>
    </message>
    <message>
        <source>x %1, y %2 px; no calibrated colour without a sheet</source>
        <translation>x %1, y %2 px; ohne Blatt keine kalibrierte Farbe</translation>
    </message>
    <message>
        <source>L* %1 ± %2   a* %3 ± %4   b* %5 ± %6
%7 (%8)   Munsell %9</source>
        <translation>L* %1 ± %2   a* %3 ± %4   b* %5 ± %6
%7 (%8)   Munsell %9</translation>
    </message>
    <message>
        <source>   x %1, y %2 px</source>
        <translation>   x %1, y %2 px</translation>
    </message>
    <message>
        <source>Point into the photo: its pixels, colour and name appear here.</source>
        <translation>Zeige ins Foto: Pixel, Farbe und Name erscheinen hier.</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::MainWindow</name>
    <message>
        <source>What runs in the background</source>
        <translation>Was im Hintergrund läuft</translation>
    </message>
    <message>
        <source>Progress</source>
        <translation>Fortschritt</translation>
    </message>
    <message>
        <source>Stop</source>
        <translation>Anhalten</translation>
    </message>
    <message>
        <source>Stop working (Ctrl+.)</source>
        <translation>Arbeit anhalten (Strg+.)</translation>
    </message>
    <message>
        <source>Stop working</source>
        <translation>Arbeit anhalten</translation>
    </message>
    <message>
        <source>Pages</source>
        <translation>Seiten</translation>
    </message>
    <message>
        <source>One photo</source>
        <translation>Ein Foto</translation>
    </message>
    <message>
        <source>Ctrl+Alt+1</source>
        <translation>Ctrl+Alt+1</translation>
    </message>
    <message>
        <source>Reaction</source>
        <translation>Reaktion</translation>
    </message>
    <message>
        <source>Ctrl+Alt+2</source>
        <translation>Ctrl+Alt+2</translation>
    </message>
    <message>
        <source>Side by side</source>
        <translation>Nebeneinander</translation>
    </message>
    <message>
        <source>Ctrl+Alt+3</source>
        <translation>Ctrl+Alt+3</translation>
    </message>
    <message>
        <source>Guide</source>
        <translation>Anleitung</translation>
    </message>
    <message>
        <source>F1</source>
        <translation>F1</translation>
    </message>
    <message>
        <source>Settings</source>
        <translation>Einstellungen</translation>
    </message>
    <message>
        <source>Ctrl+,</source>
        <translation>Ctrl+,</translation>
    </message>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>Ctrl+/</source>
        <translation>Ctrl+/</translation>
    </message>
    <message>
        <source>Page: %1</source>
        <translation>Seite: %1</translation>
    </message>
    <message>
        <source>Recent</source>
        <translation>Zuletzt geöffnet</translation>
    </message>
    <message>
        <source>Recent files</source>
        <translation>Zuletzt geöffnete Dateien</translation>
    </message>
    <message>
        <source>Quit</source>
        <translation>Beenden</translation>
    </message>
    <message>
        <source>Ctrl+Q</source>
        <translation>Ctrl+Q</translation>
    </message>
    <message>
        <source>Menus</source>
        <translation>Menüs</translation>
    </message>
    <message>
        <source>none yet</source>
        <translation>noch keine</translation>
    </message>
    <message>
        <source>Catalogue</source>
        <translation>Katalog</translation>
    </message>
    <message>
        <source>Ctrl+Alt+4</source>
        <translation>Ctrl+Alt+4</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::PairModel</name>
    <message>
        <source>same</source>
        <translation>gleich</translation>
    </message>
    <message>
        <source>different</source>
        <translation>verschieden</translation>
    </message>
    <message>
        <source>undecided</source>
        <translation>unentschieden</translation>
    </message>
    <message>
        <source>ΔE00 %1 ± %2; E_n %3; true difference within the tolerance with a probability of %4 %</source>
        <translation>ΔE00 %1 ± %2; E_n %3; wahrer Unterschied mit einer Wahrscheinlichkeit von %4 % innerhalb der Toleranz</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::PhotoDocument</name>
    <message>
        <source>Work on '%1' was found that had not been saved when the program ended.</source>
        <translation>Es fand sich Arbeit an „%1“, die beim Ende des Programms nicht gespeichert war.</translation>
    </message>
    <message>
        <source>It is open again as it was; save it to keep it.</source>
        <translation>Sie ist wieder offen, wie sie war; speichere sie, um sie zu behalten.</translation>
    </message>
    <message>
        <source>Region %1</source>
        <translation>Bereich %1</translation>
    </message>
    <message>
        <source>The photo as a whole</source>
        <translation>Das Foto als Ganzes</translation>
    </message>
    <message>
        <source>Load regions</source>
        <translation>Bereiche laden</translation>
    </message>
    <message>
        <source>There is no reading to write yet.</source>
        <translation>Es gibt noch keine Messung zum Schreiben.</translation>
    </message>
    <message>
        <source>Open a photo with a sheet in it and wait until it is read.</source>
        <translation>Öffne ein Foto mit einem Blatt darin und warte, bis es gemessen ist.</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::PhotoPage</name>
    <message>
        <source>Photo page</source>
        <translation>Seite für ein Foto</translation>
    </message>
    <message>
        <source>The clipboard holds neither a photo nor a file.</source>
        <translation>Die Zwischenablage enthält weder ein Foto noch eine Datei.</translation>
    </message>
    <message>
        <source>Copy a photo or its file first.</source>
        <translation>Kopiere zuerst ein Foto oder dessen Datei.</translation>
    </message>
    <message>
        <source>pasted picture</source>
        <translation>eingefügtes Bild</translation>
    </message>
    <message>
        <source>Write reading</source>
        <translation>Messung schreiben</translation>
    </message>
    <message>
        <source>Open a photo or saved work</source>
        <translation>Ein Foto oder gespeicherte Arbeit öffnen</translation>
    </message>
    <message>
        <source>Photos and saved work (*);;Saved work (*.tintfall)</source>
        <translation>Fotos und gespeicherte Arbeit (*);;Gespeicherte Arbeit (*.tintfall)</translation>
    </message>
    <message>
        <source>Save work</source>
        <translation>Arbeit speichern</translation>
    </message>
    <message>
        <source>Readings to show beside these</source>
        <translation>Messungen, die daneben gezeigt werden</translation>
    </message>
    <message>
        <source>Records (*.json)</source>
        <translation>Protokolle (*.json)</translation>
    </message>
    <message>
        <source>Open …</source>
        <translation>Öffnen …</translation>
    </message>
    <message>
        <source>Keep regions and what you said about the photo</source>
        <translation>Bereiche und Angaben zum Foto behalten</translation>
    </message>
    <message>
        <source>Save work as …</source>
        <translation>Arbeit speichern unter …</translation>
    </message>
    <message>
        <source>Ctrl+Shift+S</source>
        <translation>Ctrl+Shift+S</translation>
    </message>
    <message>
        <source>Keep the work in another file</source>
        <translation>Die Arbeit in einer anderen Datei behalten</translation>
    </message>
    <message>
        <source>Write record (JSON) …</source>
        <translation>Protokoll schreiben (JSON) …</translation>
    </message>
    <message>
        <source>Ctrl+E</source>
        <translation>Ctrl+E</translation>
    </message>
    <message>
        <source>Write the reading as a record for programs</source>
        <translation>Die Messung als Protokoll für Programme schreiben</translation>
    </message>
    <message>
        <source>Write text …</source>
        <translation>Text schreiben …</translation>
    </message>
    <message>
        <source>Ctrl+Shift+E</source>
        <translation>Ctrl+Shift+E</translation>
    </message>
    <message>
        <source>Write the reading as text</source>
        <translation>Die Messung als Text schreiben</translation>
    </message>
    <message>
        <source>Write picture …</source>
        <translation>Bild schreiben …</translation>
    </message>
    <message>
        <source>Ctrl+Alt+E</source>
        <translation>Ctrl+Alt+E</translation>
    </message>
    <message>
        <source>Write the photo with what was found on it</source>
        <translation>Das Foto mit dem, was darauf gefunden wurde, schreiben</translation>
    </message>
    <message>
        <source>Load regions …</source>
        <translation>Bereiche laden …</translation>
    </message>
    <message>
        <source>Ctrl+Shift+O</source>
        <translation>Ctrl+Shift+O</translation>
    </message>
    <message>
        <source>Take regions from a regions file</source>
        <translation>Bereiche aus einer Bereichsdatei nehmen</translation>
    </message>
    <message>
        <source>Load regions</source>
        <translation>Bereiche laden</translation>
    </message>
    <message>
        <source>Regions (*.json)</source>
        <translation>Bereiche (*.json)</translation>
    </message>
    <message>
        <source>Save regions …</source>
        <translation>Bereiche speichern …</translation>
    </message>
    <message>
        <source>Ctrl+Shift+R</source>
        <translation>Ctrl+Shift+R</translation>
    </message>
    <message>
        <source>Write the regions to a regions file</source>
        <translation>Die Bereiche in eine Bereichsdatei schreiben</translation>
    </message>
    <message>
        <source>Save regions</source>
        <translation>Bereiche speichern</translation>
    </message>
    <message>
        <source>File</source>
        <translation>Datei</translation>
    </message>
    <message>
        <source>Undo</source>
        <translation>Rückgängig</translation>
    </message>
    <message>
        <source>Redo</source>
        <translation>Wiederholen</translation>
    </message>
    <message>
        <source>Paste photo</source>
        <translation>Foto einfügen</translation>
    </message>
    <message>
        <source>Open the photo or file of the clipboard</source>
        <translation>Foto oder Datei der Zwischenablage öffnen</translation>
    </message>
    <message>
        <source>Copy as text</source>
        <translation>Als Text kopieren</translation>
    </message>
    <message>
        <source>Copy the reading as text</source>
        <translation>Die Messung als Text kopieren</translation>
    </message>
    <message>
        <source>Copy as JSON</source>
        <translation>Als JSON kopieren</translation>
    </message>
    <message>
        <source>Ctrl+Shift+C</source>
        <translation>Ctrl+Shift+C</translation>
    </message>
    <message>
        <source>Copy the record</source>
        <translation>Das Protokoll kopieren</translation>
    </message>
    <message>
        <source>Copy as picture</source>
        <translation>Als Bild kopieren</translation>
    </message>
    <message>
        <source>Ctrl+Alt+C</source>
        <translation>Ctrl+Alt+C</translation>
    </message>
    <message>
        <source>Copy the photo with what was found on it</source>
        <translation>Das Foto mit dem, was darauf gefunden wurde, kopieren</translation>
    </message>
    <message>
        <source>Stop working</source>
        <translation>Arbeit anhalten</translation>
    </message>
    <message>
        <source>Ctrl+.</source>
        <translation>Ctrl+.</translation>
    </message>
    <message>
        <source>Cancel what runs in the background</source>
        <translation>Abbrechen, was im Hintergrund läuft</translation>
    </message>
    <message>
        <source>Clear the list of issues</source>
        <translation>Liste der Hinweise leeren</translation>
    </message>
    <message>
        <source>Ctrl+Shift+I</source>
        <translation>Ctrl+Shift+I</translation>
    </message>
    <message>
        <source>Empty the list under the photo</source>
        <translation>Die Liste unter dem Foto leeren</translation>
    </message>
    <message>
        <source>Edit</source>
        <translation>Bearbeiten</translation>
    </message>
    <message>
        <source>Look and move</source>
        <translation>Schauen und bewegen</translation>
    </message>
    <message>
        <source>F2</source>
        <translation>F2</translation>
    </message>
    <message>
        <source>Pan the photo, choose, move and reshape regions</source>
        <translation>Das Foto verschieben, Bereiche wählen, bewegen und umformen</translation>
    </message>
    <message>
        <source>Ellipse</source>
        <translation>Ellipse</translation>
    </message>
    <message>
        <source>F3</source>
        <translation>F3</translation>
    </message>
    <message>
        <source>Draw an ellipse from corner to corner; Enter sets one at the crosshair</source>
        <translation>Eine Ellipse von Ecke zu Ecke ziehen; die Eingabetaste setzt eine am Fadenkreuz</translation>
    </message>
    <message>
        <source>Polygon</source>
        <translation>Vieleck</translation>
    </message>
    <message>
        <source>F4</source>
        <translation>F4</translation>
    </message>
    <message>
        <source>Click corner after corner; double-click or Shift+Enter closes</source>
        <translation>Ecke um Ecke klicken; Doppelklick oder Umschalt+Eingabe schließt</translation>
    </message>
    <message>
        <source>By hand</source>
        <translation>Freihand</translation>
    </message>
    <message>
        <source>F5</source>
        <translation>F5</translation>
    </message>
    <message>
        <source>Draw round the place</source>
        <translation>Um die Stelle herum zeichnen</translation>
    </message>
    <message>
        <source>Grow from here</source>
        <translation>Von hier wachsen</translation>
    </message>
    <message>
        <source>F6</source>
        <translation>F6</translation>
    </message>
    <message>
        <source>Take everything round a place that has its colour</source>
        <translation>Alles um eine Stelle nehmen, was ihre Farbe hat</translation>
    </message>
    <message>
        <source>Duplicate</source>
        <translation>Verdoppeln</translation>
    </message>
    <message>
        <source>Ctrl+D</source>
        <translation>Ctrl+D</translation>
    </message>
    <message>
        <source>Copy the chosen region beside itself</source>
        <translation>Den gewählten Bereich neben sich kopieren</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>Take the chosen region away</source>
        <translation>Den gewählten Bereich wegnehmen</translation>
    </message>
    <message>
        <source>Rename</source>
        <translation>Umbenennen</translation>
    </message>
    <message>
        <source>Ctrl+R</source>
        <translation>Ctrl+R</translation>
    </message>
    <message>
        <source>Give the chosen region another name</source>
        <translation>Dem gewählten Bereich einen anderen Namen geben</translation>
    </message>
    <message>
        <source>Next region</source>
        <translation>Nächster Bereich</translation>
    </message>
    <message>
        <source>Ctrl+Tab</source>
        <translation>Ctrl+Tab</translation>
    </message>
    <message>
        <source>Choose the next region</source>
        <translation>Den nächsten Bereich wählen</translation>
    </message>
    <message>
        <source>Find specimens again</source>
        <translation>Proben erneut suchen</translation>
    </message>
    <message>
        <source>Ctrl+F</source>
        <translation>Ctrl+F</translation>
    </message>
    <message>
        <source>Drop the drawn regions and look in each opening</source>
        <translation>Gezeichnete Bereiche verwerfen und in jeder Öffnung suchen</translation>
    </message>
    <message>
        <source>Place sheet by its corners</source>
        <translation>Blatt an den Ecken anlegen</translation>
    </message>
    <message>
        <source>F8</source>
        <translation>F8</translation>
    </message>
    <message>
        <source>Show the sheet's four corners and drag them where they belong</source>
        <translation>Die vier Ecken des Blattes zeigen und dorthin ziehen, wo sie hingehören</translation>
    </message>
    <message>
        <source>Place sheet by its markers</source>
        <translation>Blatt an den Marken anlegen</translation>
    </message>
    <message>
        <source>Shift+F8</source>
        <translation>Shift+F8</translation>
    </message>
    <message>
        <source>Forget corners placed by hand</source>
        <translation>Von Hand gesetzte Ecken vergessen</translation>
    </message>
    <message>
        <source>Region</source>
        <translation>Bereich</translation>
    </message>
    <message>
        <source>As taken</source>
        <translation>Wie aufgenommen</translation>
    </message>
    <message>
        <source>Ctrl+1</source>
        <translation>Ctrl+1</translation>
    </message>
    <message>
        <source>The photo as the camera developed it</source>
        <translation>Das Foto, wie die Kamera es entwickelt hat</translation>
    </message>
    <message>
        <source>Calibrated</source>
        <translation>Kalibriert</translation>
    </message>
    <message>
        <source>Ctrl+2</source>
        <translation>Ctrl+2</translation>
    </message>
    <message>
        <source>Every pixel through the calibration, under one white</source>
        <translation>Jedes Pixel durch die Kalibrierung, unter einem Weiß</translation>
    </message>
    <message>
        <source>Difference from the reading</source>
        <translation>Unterschied zur Messung</translation>
    </message>
    <message>
        <source>Ctrl+3</source>
        <translation>Ctrl+3</translation>
    </message>
    <message>
        <source>How far each pixel is from the chosen reading, in ΔE00</source>
        <translation>Wie weit jedes Pixel von der gewählten Messung liegt, in ΔE00</translation>
    </message>
    <message>
        <source>Outline of the sheet</source>
        <translation>Umriss des Blattes</translation>
    </message>
    <message>
        <source>Alt+1</source>
        <translation>Alt+1</translation>
    </message>
    <message>
        <source>Patches, used and dropped</source>
        <translation>Felder, benutzt und verworfen</translation>
    </message>
    <message>
        <source>Alt+2</source>
        <translation>Alt+2</translation>
    </message>
    <message>
        <source>Opening</source>
        <translation>Öffnung</translation>
    </message>
    <message>
        <source>Alt+3</source>
        <translation>Alt+3</translation>
    </message>
    <message>
        <source>Regions</source>
        <translation>Bereiche</translation>
    </message>
    <message>
        <source>Alt+4</source>
        <translation>Alt+4</translation>
    </message>
    <message>
        <source>Samples of bare paper</source>
        <translation>Proben des blanken Papiers</translation>
    </message>
    <message>
        <source>Alt+5</source>
        <translation>Alt+5</translation>
    </message>
    <message>
        <source>Show or hide: %1</source>
        <translation>Zeigen oder verbergen: %1</translation>
    </message>
    <message>
        <source>Whole photo</source>
        <translation>Ganzes Foto</translation>
    </message>
    <message>
        <source>Ctrl+0</source>
        <translation>Ctrl+0</translation>
    </message>
    <message>
        <source>Fit the photo into the view</source>
        <translation>Das Foto in die Ansicht einpassen</translation>
    </message>
    <message>
        <source>Pixel for pixel</source>
        <translation>Pixel für Pixel</translation>
    </message>
    <message>
        <source>Ctrl+9</source>
        <translation>Ctrl+9</translation>
    </message>
    <message>
        <source>One photo pixel for one of the screen</source>
        <translation>Ein Fotopixel für eines des Bildschirms</translation>
    </message>
    <message>
        <source>Closer</source>
        <translation>Näher</translation>
    </message>
    <message>
        <source>Enlarge</source>
        <translation>Vergrößern</translation>
    </message>
    <message>
        <source>Farther</source>
        <translation>Weiter weg</translation>
    </message>
    <message>
        <source>Make smaller</source>
        <translation>Verkleinern</translation>
    </message>
    <message>
        <source>Turn left</source>
        <translation>Nach links drehen</translation>
    </message>
    <message>
        <source>Ctrl+L</source>
        <translation>Ctrl+L</translation>
    </message>
    <message>
        <source>Turn the view a quarter to the left</source>
        <translation>Die Ansicht ein Viertel nach links drehen</translation>
    </message>
    <message>
        <source>Turn right</source>
        <translation>Nach rechts drehen</translation>
    </message>
    <message>
        <source>Ctrl+Shift+L</source>
        <translation>Ctrl+Shift+L</translation>
    </message>
    <message>
        <source>Turn the view a quarter to the right</source>
        <translation>Die Ansicht ein Viertel nach rechts drehen</translation>
    </message>
    <message>
        <source>Turn by 5°</source>
        <translation>Um 5° drehen</translation>
    </message>
    <message>
        <source>Ctrl+Alt+L</source>
        <translation>Ctrl+Alt+L</translation>
    </message>
    <message>
        <source>Turn the view a little</source>
        <translation>Die Ansicht ein wenig drehen</translation>
    </message>
    <message>
        <source>Show other readings in the diagram …</source>
        <translation>Andere Messungen im Diagramm zeigen …</translation>
    </message>
    <message>
        <source>Ctrl+B</source>
        <translation>Ctrl+B</translation>
    </message>
    <message>
        <source>Lay readings from record files over the diagram</source>
        <translation>Messungen aus Protokolldateien über das Diagramm legen</translation>
    </message>
    <message>
        <source>Names in the diagram</source>
        <translation>Namen im Diagramm</translation>
    </message>
    <message>
        <source>Ctrl+Shift+B</source>
        <translation>Ctrl+Shift+B</translation>
    </message>
    <message>
        <source>Show the regions of the names</source>
        <translation>Die Gebiete der Namen zeigen</translation>
    </message>
    <message>
        <source>View</source>
        <translation>Ansicht</translation>
    </message>
    <message>
        <source>Kind of the region</source>
        <translation>Art des Bereichs</translation>
    </message>
    <message>
        <source>Picture</source>
        <translation>Bild</translation>
    </message>
    <message>
        <source>Layers</source>
        <translation>Ebenen</translation>
    </message>
    <message>
        <source>Zoom and turn</source>
        <translation>Zoom und Drehen</translation>
    </message>
    <message>
        <source>Regions and their colours</source>
        <translation>Bereiche und ihre Farben</translation>
    </message>
    <message>
        <source>About the reading and the photo</source>
        <translation>Zur Messung und zum Foto</translation>
    </message>
    <message>
        <source>Checks of the photo</source>
        <translation>Prüfung des Fotos</translation>
    </message>
    <message>
        <source>Reading</source>
        <translation>Messung</translation>
    </message>
    <message>
        <source>Diagram</source>
        <translation>Diagramm</translation>
    </message>
    <message>
        <source>Checks</source>
        <translation>Prüfung</translation>
    </message>
    <message>
        <source>About this photo</source>
        <translation>Zu diesem Foto</translation>
    </message>
    <message>
        <source>Photo and reading</source>
        <translation>Foto und Messung</translation>
    </message>
    <message>
        <source>Issues; Enter jumps to the place</source>
        <translation>Hinweise; die Eingabetaste springt zur Stelle</translation>
    </message>
    <message>
        <source>Photo and issues</source>
        <translation>Foto und Hinweise</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::PhotoView</name>
    <message>
        <source>Photo</source>
        <translation>Foto</translation>
    </message>
    <message>
        <source>The photo with the sheet and the regions. Arrow keys move the view, Ctrl and arrow keys the crosshair, Enter uses the tool at the crosshair.</source>
        <translation>Das Foto mit Blatt und Bereichen. Pfeiltasten bewegen die Ansicht, Strg und Pfeiltasten das Fadenkreuz, die Eingabetaste benutzt das Werkzeug am Fadenkreuz.</translation>
    </message>
    <message>
        <source>Drop a photo here, paste one, or open it with Ctrl+O.
It has to show a printed sheet beside the specimen.</source>
        <translation>Lege ein Foto hier ab, füge eines ein oder öffne es mit Strg+O.
Es muss ein gedrucktes Blatt neben der Probe zeigen.</translation>
    </message>
    <message>
        <source>Corners need to know which sheet they belong to.</source>
        <translation>Ecken müssen wissen, zu welchem Blatt sie gehören.</translation>
    </message>
    <message>
        <source>Choose the sheet in the panel 'About this photo', then move a corner again.</source>
        <translation>Wähle das Blatt unter „Zu diesem Foto“, dann bewege noch einmal eine Ecke.</translation>
    </message>
    <message>
        <source>Place sheet by hand</source>
        <translation>Blatt von Hand anlegen</translation>
    </message>
    <message>
        <source>A region needs a sheet to be read through.</source>
        <translation>Ein Bereich braucht ein Blatt, durch das er gemessen wird.</translation>
    </message>
    <message>
        <source>Wait until the sheet is found, or place its corners by hand.</source>
        <translation>Warte, bis das Blatt gefunden ist, oder setze seine Ecken von Hand.</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::ReadingPanel</name>
    <message>
        <source>Reading</source>
        <translation>Messung</translation>
    </message>
    <message>
        <source>Name of the colour</source>
        <translation>Name der Farbe</translation>
    </message>
    <message>
        <source>Other names</source>
        <translation>Andere Namen</translation>
    </message>
    <message>
        <source>Lab values with expanded uncertainty</source>
        <translation>Lab-Werte mit erweiterter Unsicherheit</translation>
    </message>
    <message>
        <source>Munsell notation, trade terms and size</source>
        <translation>Munsell-Bezeichnung, Fachwörter und Größe</translation>
    </message>
    <message>
        <source>Flags of this reading</source>
        <translation>Merkzeichen dieser Messung</translation>
    </message>
    <message>
        <source>What the uncertainty is made of</source>
        <translation>Woraus die Unsicherheit besteht</translation>
    </message>
    <message>
        <source>No reading</source>
        <translation>Keine Messung</translation>
    </message>
    <message>
        <source>Nothing read yet</source>
        <translation>Noch nichts gemessen</translation>
    </message>
    <message>
        <source>otherwise %1</source>
        <translation>sonst %1</translation>
    </message>
    <message>
        <source>CIELAB, D50, 2°; ± is k = 2</source>
        <translation>CIELAB, D50, 2°; ± ist k = 2</translation>
    </message>
    <message>
        <source>within ΔE00 %1 of the true colour (95 %)</source>
        <translation>innerhalb ΔE00 %1 der wahren Farbe (95 %)</translation>
    </message>
    <message>
        <source>Munsell %1</source>
        <translation>Munsell %1</translation>
    </message>
    <message>
        <source>in the trade's words: %1</source>
        <translation>in den Worten des Fachs: %1</translation>
    </message>
    <message>
        <source>%L1 pixels, %2 mm²</source>
        <translation>%L1 Pixel, %2 mm²</translation>
    </message>
    <message>
        <source>%1 % covered by the deposit, bare ground between</source>
        <translation>zu %1 % vom Sporenabdruck bedeckt, dazwischen blanker Grund</translation>
    </message>
    <message>
        <source>%1 % neither deposit nor ground, left out</source>
        <translation>%1 % weder Sporenabdruck noch Grund, nicht mitgelesen</translation>
    </message>
    <message>
        <source>Thickest tenth: %1, ΔE00 %2 from the mean</source>
        <translation>Dickstes Zehntel: %1, ΔE00 %2 vom Mittel</translation>
    </message>
    <message>
        <source>What ± %1 is made of (ΔE00, 95 %)</source>
        <translation>Woraus ± %1 besteht (ΔE00, 95 %)</translation>
    </message>
    <message>
        <source>Colour of the masstone</source>
        <translation>Farbe des Volltons</translation>
    </message>
    <message>
        <source>Masstone: the colour of a layer thick enough to hide its ground</source>
        <translation>Vollton: die Farbe einer Schicht, die ihren Untergrund deckt</translation>
    </message>
    <message>
        <source>contrast ratio %1 %</source>
        <translation>Kontrastverhältnis %1 %</translation>
    </message>
    <message>
        <source>No masstone: %1 %2</source>
        <translation>Kein Vollton: %1 %2</translation>
    </message>
    <message>
        <source>Masstone, of a layer that hides its ground: %1</source>
        <translation>Vollton, einer Schicht, die ihren Untergrund deckt: %1</translation>
    </message>
    <message>
        <source>within ΔE00 %1 of the true masstone (95 %), Munsell %2</source>
        <translation>innerhalb ΔE00 %1 vom wahren Vollton (95 %), Munsell %2</translation>
    </message>
    <message>
        <source>from its uneven thickness over one ground</source>
        <translation>aus seiner ungleichen Dicke über einem Untergrund</translation>
    </message>
    <message>
        <source>from two grounds</source>
        <translation>aus zwei Untergründen</translation>
    </message>
    <message>
        <source>from two grounds, with %1</source>
        <translation>aus zwei Untergründen, mit %1</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::Recovery</name>
    <message>
        <source>Unsaved work could not be kept: %1</source>
        <translation>Ungespeicherte Arbeit konnte nicht gesichert werden: %1</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::RegionModel</name>
    <message>
        <source>deposit</source>
        <translation>Sporenabdruck</translation>
    </message>
    <message>
        <source>substrate</source>
        <translation>Untergrund</translation>
    </message>
    <message>
        <source>reagent spot</source>
        <translation>Reagenzfleck</translation>
    </message>
    <message>
        <source>bruise</source>
        <translation>Druckstelle</translation>
    </message>
    <message>
        <source>untreated control</source>
        <translation>Kontrolle</translation>
    </message>
    <message>
        <source>water drop</source>
        <translation>Wassertropfen</translation>
    </message>
    <message>
        <source>other</source>
        <translation>anderes</translation>
    </message>
    <message>
        <source>reading …</source>
        <translation>wird gemessen …</translation>
    </message>
    <message>
        <source>no reading</source>
        <translation>keine Messung</translation>
    </message>
    <message>
        <source>Region</source>
        <translation>Bereich</translation>
    </message>
    <message>
        <source>Kind</source>
        <translation>Art</translation>
    </message>
    <message>
        <source>Colour in words</source>
        <translation>Farbe in Worten</translation>
    </message>
    <message>
        <source>L* a* b* ±ΔE00</source>
        <translation>L* a* b* ±ΔE00</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::SeriesPage</name>
    <message>
        <source>Reaction</source>
        <translation>Reaktion</translation>
    </message>
    <message>
        <source>Add photos …</source>
        <translation>Fotos hinzufügen …</translation>
    </message>
    <message>
        <source>Ctrl+Alt+O</source>
        <translation>Ctrl+Alt+O</translation>
    </message>
    <message>
        <source>Add the photos of one reaction</source>
        <translation>Die Fotos einer Reaktion hinzufügen</translation>
    </message>
    <message>
        <source>Photos of one reaction</source>
        <translation>Fotos einer Reaktion</translation>
    </message>
    <message>
        <source>Regions of the open photo</source>
        <translation>Bereiche des offenen Fotos</translation>
    </message>
    <message>
        <source>Ctrl+Alt+R</source>
        <translation>Ctrl+Alt+R</translation>
    </message>
    <message>
        <source>Look where regions are drawn on the page 'One photo'</source>
        <translation>Dort messen, wo auf der Seite „Ein Foto“ Bereiche gezeichnet sind</translation>
    </message>
    <message>
        <source>Regions from a file …</source>
        <translation>Bereiche aus einer Datei …</translation>
    </message>
    <message>
        <source>Ctrl+Alt+Shift+R</source>
        <translation>Ctrl+Alt+Shift+R</translation>
    </message>
    <message>
        <source>Take regions from a regions file</source>
        <translation>Bereiche aus einer Bereichsdatei nehmen</translation>
    </message>
    <message>
        <source>Regions</source>
        <translation>Bereiche</translation>
    </message>
    <message>
        <source>Regions (*.json)</source>
        <translation>Bereiche (*.json)</translation>
    </message>
    <message>
        <source>Read series</source>
        <translation>Reihe messen</translation>
    </message>
    <message>
        <source>Ctrl+Return</source>
        <translation>Ctrl+Return</translation>
    </message>
    <message>
        <source>Read every photo of the series</source>
        <translation>Jedes Foto der Reihe messen</translation>
    </message>
    <message>
        <source>Stop reading the series</source>
        <translation>Messen der Reihe anhalten</translation>
    </message>
    <message>
        <source>Ctrl+Alt+.</source>
        <translation>Ctrl+Alt+.</translation>
    </message>
    <message>
        <source>Zero at this frame</source>
        <translation>Nullpunkt bei diesem Bild</translation>
    </message>
    <message>
        <source>Ctrl+T</source>
        <translation>Ctrl+T</translation>
    </message>
    <message>
        <source>The drop fell, or the cut was made, at the frame shown</source>
        <translation>Der Tropfen fiel, oder der Schnitt geschah, beim gezeigten Bild</translation>
    </message>
    <message>
        <source>Before and after by turns</source>
        <translation>Im Wechsel zeigen</translation>
    </message>
    <message>
        <source>Ctrl+Alt+T</source>
        <translation>Ctrl+Alt+T</translation>
    </message>
    <message>
        <source>Show both in one place, one after the other</source>
        <translation>Beide an einer Stelle zeigen, eines nach dem anderen</translation>
    </message>
    <message>
        <source>Write strip of key moments …</source>
        <translation>Streifen der wichtigsten Momente schreiben …</translation>
    </message>
    <message>
        <source>Ctrl+Alt+K</source>
        <translation>Ctrl+Alt+K</translation>
    </message>
    <message>
        <source>Write the telling pictures in a row, as PNG</source>
        <translation>Die sprechenden Bilder in einer Reihe schreiben, als PNG</translation>
    </message>
    <message>
        <source>Strip of key moments</source>
        <translation>Streifen der wichtigsten Momente</translation>
    </message>
    <message>
        <source>PNG (*.png)</source>
        <translation>PNG (*.png)</translation>
    </message>
    <message>
        <source>Write series record …</source>
        <translation>Protokoll der Reihe schreiben …</translation>
    </message>
    <message>
        <source>Ctrl+Alt+J</source>
        <translation>Ctrl+Alt+J</translation>
    </message>
    <message>
        <source>Write the series as JSON</source>
        <translation>Die Reihe als JSON schreiben</translation>
    </message>
    <message>
        <source>Series record</source>
        <translation>Protokoll der Reihe</translation>
    </message>
    <message>
        <source>JSON (*.json)</source>
        <translation>JSON (*.json)</translation>
    </message>
    <message>
        <source>Take all photos away</source>
        <translation>Alle Fotos wegnehmen</translation>
    </message>
    <message>
        <source>Ctrl+Alt+X</source>
        <translation>Ctrl+Alt+X</translation>
    </message>
    <message>
        <source>Begin another series</source>
        <translation>Eine andere Reihe beginnen</translation>
    </message>
    <message>
        <source>Reagent with its strength</source>
        <translation>Reagenz mit seiner Stärke</translation>
    </message>
    <message>
        <source>reagent, or none</source>
        <translation>oder keines</translation>
    </message>
    <message>
        <source>When it was applied</source>
        <translation>Wann es aufgetragen wurde</translation>
    </message>
    <message>
        <source>+12 (s), 11:07:13, a photo, %1</source>
        <translation>+12 (s), 11:07:13, ein Foto, %1</translation>
    </message>
    <message>
        <source>found</source>
        <translation>gefunden</translation>
    </message>
    <message>
        <source>When the drop fell or the cut was made: seconds after the first photo (+12), a time of the camera's clock, the name of a photo, or '%1' to look for it. It can also be dragged on the line below.</source>
        <translation>Wann der Tropfen fiel oder der Schnitt geschah: Sekunden nach dem ersten Foto (+12), eine Zeit der Kamerauhr, der Name eines Fotos, oder „%1“, um danach zu suchen. Er lässt sich auch auf der Linie unten ziehen.</translation>
    </message>
    <message>
        <source>every</source>
        <translation>alle</translation>
    </message>
    <message>
        <source>Photos were taken at even intervals</source>
        <translation>Fotos wurden in gleichen Abständen aufgenommen</translation>
    </message>
    <message>
        <source> s</source>
        <translation> s</translation>
    </message>
    <message>
        <source>Interval between photos</source>
        <translation>Abstand zwischen den Fotos</translation>
    </message>
    <message>
        <source>Reagent</source>
        <translation>Reagenz</translation>
    </message>
    <message>
        <source>Applied</source>
        <translation>Aufgetragen</translation>
    </message>
    <message>
        <source>What will be read</source>
        <translation>Was gemessen wird</translation>
    </message>
    <message>
        <source>The change in words</source>
        <translation>Die Änderung in Worten</translation>
    </message>
    <message>
        <source>Pictures and curve</source>
        <translation>Bilder und Kurve</translation>
    </message>
    <message>
        <source>photos: %1</source>
        <translation>Fotos: %1</translation>
    </message>
    <message>
        <source>no regions yet</source>
        <translation>noch keine Bereiche</translation>
    </message>
    <message>
        <source>regions %1</source>
        <translation>Bereiche %1</translation>
    </message>
    <message>
        <source>'%1' has no regions: draw the spot, a water drop and untreated tissue first.</source>
        <translation>„%1“ hat keine Bereiche: zeichne zuerst den Fleck, einen Wassertropfen und unbehandeltes Gewebe ein.</translation>
    </message>
    <message>
        <source>Add the photos of the series first.</source>
        <translation>Füge zuerst die Fotos der Reihe hinzu.</translation>
    </message>
    <message>
        <source>%1 at %2 s: %3</source>
        <translation>%1 bei %2 s: %3</translation>
    </message>
    <message>
        <source>Read a series first.</source>
        <translation>Miss zuerst eine Reihe.</translation>
    </message>
    <message>
        <source>Add photos or a video …</source>
        <translation>Fotos oder ein Video …</translation>
    </message>
    <message>
        <source>Add the photos of one reaction, or its video</source>
        <translation>Die Fotos einer Reaktion hinzufügen, oder ihr Video</translation>
    </message>
    <message>
        <source>Photos of one reaction, or a video</source>
        <translation>Fotos einer Reaktion, oder ein Video</translation>
    </message>
    <message>
        <source>files: %1</source>
        <translation>Dateien: %1</translation>
    </message>
    <message>
        <source>%1: change ΔE00 %2 ± %3 (k = 2); %4 is needed to count as a reaction</source>
        <translation>%1: Veränderung ΔE00 %2 ± %3 (k = 2); ab %4 zählt sie als Reaktion</translation>
    </message>
    <message>
        <source>%1: began at %2 s (%3 to %4 s, 95 %)</source>
        <translation>%1: begann bei %2 s (%3 bis %4 s, 95 %)</translation>
    </message>
    <message>
        <source>%1: half done at %2 s (%3 to %4 s, 95 %)</source>
        <translation>%1: zur Hälfte bei %2 s (%3 bis %4 s, 95 %)</translation>
    </message>
    <message>
        <source>Cancel; the photos stay in the list</source>
        <translation>Abbrechen; die Fotos bleiben in der Liste</translation>
    </message>
    <message>
        <source>printed sheet %1 of your list</source>
        <translation>gedrucktes Blatt %1 aus deiner Liste</translation>
    </message>
    <message>
        <source>sheet told by its markers</source>
        <translation>Blatt an den Marken erkannt</translation>
    </message>
    <message>
        <source>sheet %1</source>
        <translation>Blatt %1</translation>
    </message>
    <message>
        <source>nominal colours, nothing measured</source>
        <translation>Sollfarben, nichts gemessen</translation>
    </message>
    <message>
        <source>measured values from %1</source>
        <translation>gemessene Werte aus %1</translation>
    </message>
    <message>
        <source>Stopped before the series was read, so nothing is shown. &apos;Read series&apos; begins again.</source>
        <translation>Angehalten, bevor die Reihe gemessen war; darum wird nichts gezeigt. „Reihe messen“ beginnt von vorn.</translation>
    </message>
    <message>
        <source>Stopped; the zero is where it was.</source>
        <translation>Angehalten; der Nullpunkt liegt, wo er lag.</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::SettingsPage</name>
    <message>
        <source>Settings</source>
        <translation>Einstellungen</translation>
    </message>
    <message>
        <source>Appearance</source>
        <translation>Erscheinung</translation>
    </message>
    <message>
        <source>as the system</source>
        <translation>wie das System</translation>
    </message>
    <message>
        <source>light</source>
        <translation>hell</translation>
    </message>
    <message>
        <source>dark</source>
        <translation>dunkel</translation>
    </message>
    <message>
        <source>Language (after the next start)</source>
        <translation>Sprache (nach dem nächsten Start)</translation>
    </message>
    <message>
        <source>Choose …</source>
        <translation>Wählen …</translation>
    </message>
    <message>
        <source>Choose: %1</source>
        <translation>Wählen: %1</translation>
    </message>
    <message>
        <source>None</source>
        <translation>Keine</translation>
    </message>
    <message>
        <source>None: %1</source>
        <translation>Keine: %1</translation>
    </message>
    <message>
        <source>Colour profile of the screen</source>
        <translation>Farbprofil des Bildschirms</translation>
    </message>
    <message>
        <source>taken to be sRGB</source>
        <translation>als sRGB angenommen</translation>
    </message>
    <message>
        <source>Measured values for new photos</source>
        <translation>Gemessene Werte für neue Fotos</translation>
    </message>
    <message>
        <source>nominal colours</source>
        <translation>Sollfarben</translation>
    </message>
    <message>
        <source>Collector in new records</source>
        <translation>Sammler in neuen Protokollen</translation>
    </message>
    <message>
        <source>ΔE00 </source>
        <translation>ΔE00 </translation>
    </message>
    <message>
        <source>Tolerance of 'Grow from here'</source>
        <translation>Toleranz von „Von hier wachsen“</translation>
    </message>
    <message>
        <source>Swatches are only as true as the screen. Judge them on a screen whose profile is chosen here, under the light you would judge a deposit in; the numbers do not depend on it.</source>
        <translation>Farbflächen sind nur so wahr wie der Bildschirm. Beurteile sie auf einem Bildschirm, dessen Profil hier gewählt ist, bei dem Licht, in dem du einen Abdruck beurteilen würdest; die Zahlen hängen nicht davon ab.</translation>
    </message>
    <message>
        <source>About screens</source>
        <translation>Über Bildschirme</translation>
    </message>
    <message>
        <source>Catalogue</source>
        <translation>Katalog</translation>
    </message>
    <message>
        <source>the usual file of this account; a file, or postgresql://host/database</source>
        <translation>die übliche Datei dieses Kontos; eine Datei, oder postgresql://host/database</translation>
    </message>
    <message>
        <source>Catalogues (*.db)</source>
        <translation>Kataloge (*.db)</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::SetupPanel</name>
    <message>
        <source>About this photo</source>
        <translation>Zu diesem Foto</translation>
    </message>
    <message>
        <source>Sheet in the photo</source>
        <translation>Blatt im Foto</translation>
    </message>
    <message>
        <source>told by its markers</source>
        <translation>an den Marken erkannt</translation>
    </message>
    <message>
        <source>Printed sheet from your list</source>
        <translation>Gedrucktes Blatt aus deiner Liste</translation>
    </message>
    <message>
        <source>none of my list</source>
        <translation>keines aus meiner Liste</translation>
    </message>
    <message>
        <source>File of measured values</source>
        <translation>Datei mit gemessenen Werten</translation>
    </message>
    <message>
        <source>nominal colours</source>
        <translation>Sollfarben</translation>
    </message>
    <message>
        <source>Choose …</source>
        <translation>Wählen …</translation>
    </message>
    <message>
        <source>Choose the file of measured values</source>
        <translation>Die Datei mit gemessenen Werten wählen</translation>
    </message>
    <message>
        <source>None</source>
        <translation>Keine</translation>
    </message>
    <message>
        <source>Use nominal colours</source>
        <translation>Sollfarben benutzen</translation>
    </message>
    <message>
        <source>known</source>
        <translation>bekannt</translation>
    </message>
    <message>
        <source>The specimen's height above the sheet is known</source>
        <translation>Die Höhe der Probe über dem Blatt ist bekannt</translation>
    </message>
    <message>
        <source>Height above the sheet</source>
        <translation>Höhe über dem Blatt</translation>
    </message>
    <message>
        <source> mm</source>
        <translation> mm</translation>
    </message>
    <message>
        <source>Item</source>
        <translation>Fund</translation>
    </message>
    <message>
        <source>Collector</source>
        <translation>Sammler</translation>
    </message>
    <message>
        <source>Tissue</source>
        <translation>Gewebe</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Zustand</translation>
    </message>
    <message>
        <source>Surface</source>
        <translation>Unterlage</translation>
    </message>
    <message>
        <source>cap, stem, flesh …</source>
        <translation>Hut, Stiel, Fleisch …</translation>
    </message>
    <message>
        <source>fresh, air-dried …</source>
        <translation>frisch, luftgetrocknet …</translation>
    </message>
    <message>
        <source>Light of the photo</source>
        <translation>Licht des Fotos</translation>
    </message>
    <message>
        <source>The tolerance then fits the light. A photo alone does not tell every lamp from daylight.</source>
        <translation>Die Toleranz passt dann zum Licht. Ein Foto allein unterscheidet nicht jede Lampe vom Tageslicht.</translation>
    </message>
    <message>
        <source>not said</source>
        <translation>nicht gesagt</translation>
    </message>
    <message>
        <source>daylight</source>
        <translation>Tageslicht</translation>
    </message>
    <message>
        <source>lamp: bulb or LED</source>
        <translation>Lampe: Glühbirne oder LED</translation>
    </message>
    <message>
        <source>fluorescent tube</source>
        <translation>Leuchtstoffröhre</translation>
    </message>
    <message>
        <source>daylight and a lamp</source>
        <translation>Tageslicht und eine Lampe</translation>
    </message>
    <message>
        <source>Light</source>
        <translation>Licht</translation>
    </message>
    <message>
        <source>Say light</source>
        <translation>Licht angeben</translation>
    </message>
    <message>
        <source>foil, card, glass …</source>
        <translation>Folie, Karton, Glas …</translation>
    </message>
    <message>
        <source>Sheet</source>
        <translation>Blatt</translation>
    </message>
    <message>
        <source>From my list</source>
        <translation>Aus meiner Liste</translation>
    </message>
    <message>
        <source>Measured values</source>
        <translation>Gemessene Werte</translation>
    </message>
    <message>
        <source>Height</source>
        <translation>Höhe</translation>
    </message>
    <message>
        <source>Choose sheet</source>
        <translation>Blatt wählen</translation>
    </message>
    <message>
        <source>Choose printed sheet</source>
        <translation>Gedrucktes Blatt wählen</translation>
    </message>
    <message>
        <source>Say height</source>
        <translation>Höhe angeben</translation>
    </message>
    <message>
        <source>Describe subject</source>
        <translation>Gegenstand beschreiben</translation>
    </message>
    <message>
        <source>CGATS or table (*.txt *.csv *.it8 *);;All files (*)</source>
        <translation>CGATS oder Tabelle (*.txt *.csv *.it8 *);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Choose measured values</source>
        <translation>Gemessene Werte wählen</translation>
    </message>
    <message>
        <source>also over one ground</source>
        <translation>auch über einem Untergrund</translation>
    </message>
    <message>
        <source>Masstone of a thin deposit over one ground, from its uneven thickness</source>
        <translation>Vollton eines dünnen Abwurfs über einem Untergrund, aus seiner ungleichen Dicke</translation>
    </message>
    <message>
        <source>The colour of a layer thick enough to hide its ground. For deposits known to be thin, on matt card or glass: all unevenness is taken for thickness. On a sheet with a black and a white ground it is computed anyway.</source>
        <translation>Die Farbe einer Schicht, die ihren Untergrund deckt. Für Abwürfe, die bekanntermaßen dünn sind, auf mattem Karton oder Glas: Alle Ungleichheit gilt als Dicke. Auf einem Blatt mit schwarzem und weißem Grund wird sie ohnehin berechnet.</translation>
    </message>
    <message>
        <source>Masstone</source>
        <translation>Vollton</translation>
    </message>
    <message>
        <source>Ask for masstones</source>
        <translation>Volltöne verlangen</translation>
    </message>
    <message>
        <source>the collection's number</source>
        <translation>die Nummer der Aufsammlung</translation>
    </message>
    <message>
        <source>Add …</source>
        <translation>Aufnehmen …</translation>
    </message>
    <message>
        <source>Add a printed sheet to your list</source>
        <translation>Ein gedrucktes Blatt in deine Liste aufnehmen</translation>
    </message>
    <message>
        <source>Put a printed sheet on your list: its label, its chart, its measured values</source>
        <translation>Ein gedrucktes Blatt in deine Liste aufnehmen: Kennzeichen, Vorlage, gemessene Werte</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::ShortcutPage</name>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>Actions and their keys</source>
        <translation>Befehle und ihre Tasten</translation>
    </message>
    <message>
        <source>Where</source>
        <translation>Wo</translation>
    </message>
    <message>
        <source>Action</source>
        <translation>Befehl</translation>
    </message>
    <message>
        <source>Key</source>
        <translation>Taste</translation>
    </message>
    <message>
        <source>In the photo</source>
        <translation>Im Foto</translation>
    </message>
    <message>
        <source>Move the view</source>
        <translation>Die Ansicht bewegen</translation>
    </message>
    <message>
        <source>arrow keys</source>
        <translation>Pfeiltasten</translation>
    </message>
    <message>
        <source>Move the crosshair</source>
        <translation>Das Fadenkreuz bewegen</translation>
    </message>
    <message>
        <source>Ctrl + arrow keys</source>
        <translation>Strg + Pfeiltasten</translation>
    </message>
    <message>
        <source>Use the tool at the crosshair</source>
        <translation>Das Werkzeug am Fadenkreuz benutzen</translation>
    </message>
    <message>
        <source>Enter</source>
        <translation>Eingabe</translation>
    </message>
    <message>
        <source>Close a polygon</source>
        <translation>Ein Vieleck schließen</translation>
    </message>
    <message>
        <source>Shift + Enter</source>
        <translation>Umschalt + Eingabe</translation>
    </message>
    <message>
        <source>Move the chosen region by 0.5 mm</source>
        <translation>Den gewählten Bereich um 0,5 mm verschieben</translation>
    </message>
    <message>
        <source>Shift + arrow keys</source>
        <translation>Umschalt + Pfeiltasten</translation>
    </message>
    <message>
        <source>Reshape the chosen region by 5 %</source>
        <translation>Den gewählten Bereich um 5 % umformen</translation>
    </message>
    <message>
        <source>Alt + arrow keys</source>
        <translation>Alt + Pfeiltasten</translation>
    </message>
    <message>
        <source>Leave the tool</source>
        <translation>Das Werkzeug verlassen</translation>
    </message>
    <message>
        <source>Esc</source>
        <translation>Esc</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::SwatchField</name>
    <message>
        <source>Colour of the reading</source>
        <translation>Farbe der Messung</translation>
    </message>
    <message>
        <source>No reading</source>
        <translation>Keine Messung</translation>
    </message>
    <message>
        <source>%1; duller on this screen than it is</source>
        <translation>%1; auf diesem Bildschirm matter, als sie ist</translation>
    </message>
    <message>
        <source>duller on this screen than it is</source>
        <translation>auf diesem Bildschirm matter, als sie ist</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::SwatchRow</name>
    <message>
        <source>Colours side by side</source>
        <translation>Farben nebeneinander</translation>
    </message>
    <message>
        <source>Add records, or drop them here: readings stand side by side under one white.</source>
        <translation>Füge Protokolle hinzu oder lege sie hier ab: Die Messungen stehen nebeneinander unter einem Weiß.</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::TimeLine</name>
    <message>
        <source>Time line of the series</source>
        <translation>Zeitlinie der Reihe</translation>
    </message>
    <message>
        <source>Frame %1 of %2, %3, %4 s</source>
        <translation>Bild %1 von %2, %3, %4 s</translation>
    </message>
    <message>
        <source>The frames of the series appear here along their times.</source>
        <translation>Hier erscheinen die Bilder der Reihe entlang ihrer Zeiten.</translation>
    </message>
    <message>
        <source>dropped</source>
        <translation>verworfen</translation>
    </message>
    <message>
        <source>zero at %1 s</source>
        <translation>null bei %1 s</translation>
    </message>
    <message>
        <source>applied</source>
        <translation>aufgetragen</translation>
    </message>
    <message>
        <source>drag to the drop</source>
        <translation>auf den Tropfen ziehen</translation>
    </message>
</context>
<context>
    <name>Drawing</name>
    <message>
        <source>window</source>
        <translation>Fenster</translation>
    </message>
    <message>
        <source>white card</source>
        <translation>weiße Pappe</translation>
    </message>
    <message>
        <source>or window</source>
        <translation>oder Fenster</translation>
    </message>
    <message>
        <source>phone, 30 to 40 cm up</source>
        <translation>Telefon, 30 bis 40 cm hoch</translation>
    </message>
    <message>
        <source>the sheet with the specimen in its opening</source>
        <translation>das Blatt mit der Probe in der Öffnung</translation>
    </message>
    <message>
        <source>window, no direct sun</source>
        <translation>Fenster, keine Sonne</translation>
    </message>
    <message>
        <source>white card or paper</source>
        <translation>weiße Pappe, Papier</translation>
    </message>
    <message>
        <source>sends light back</source>
        <translation>wirft Licht zurück</translation>
    </message>
    <message>
        <source>stand here, with plain dark sleeves</source>
        <translation>hier stehen, dunkle Ärmel</translation>
    </message>
    <message>
        <source>not between the two</source>
        <translation>nicht dazwischen</translation>
    </message>
    <message>
        <source>parallel, the whole sheet in the frame</source>
        <translation>parallel, ganzes Blatt im Bild</translation>
    </message>
    <message>
        <source>up to 30°</source>
        <translation>bis 30°</translation>
    </message>
    <message>
        <source>is read</source>
        <translation>wird gelesen</translation>
    </message>
    <message>
        <source>tilted: gloss and blur creep in</source>
        <translation>schräg: Glanz und Unschärfe</translation>
    </message>
    <message>
        <source>flat: fixed to a stiff board</source>
        <translation>flach: auf steifer Pappe</translation>
    </message>
    <message>
        <source>a sag of 5 mm is noticed</source>
        <translation>5 mm Durchhang fallen auf</translation>
    </message>
    <message>
        <source>curled: edges and middle get other light</source>
        <translation>gewölbt: Rand und Mitte anders hell</translation>
    </message>
    <message>
        <source>level: the sheet lies on the slip that</source>
        <translation>eben: das Blatt liegt auf dem Papier,</translation>
    </message>
    <message>
        <source>carries the deposit</source>
        <translation>das den Abdruck trägt</translation>
    </message>
    <message>
        <source>height</source>
        <translation>Höhe</translation>
    </message>
    <message>
        <source>above: brightness is less certain;</source>
        <translation>höher: Helligkeit weniger sicher;</translation>
    </message>
    <message>
        <source>raise the sheet or say the height</source>
        <translation>Blatt anheben oder Höhe angeben</translation>
    </message>
</context>
<context>
    <name>colorlib</name>
    <message>
        <source>Part of the region or of the sheet is over-exposed; expose less, so that bare paper is bright but not white.</source>
        <translation>Ein Teil des Bereichs oder des Blattes ist überbelichtet; knapper belichten, sodass blankes Papier hell, aber nicht weiß ist.</translation>
    </message>
    <message>
        <source>Below L* 20 little light is left to measure; use more light and a longer exposure, not a brighter picture.</source>
        <translation>Unter L* 20 bleibt wenig Licht zum Messen; mehr Licht und längere Belichtung, nicht ein helleres Bild.</translation>
    </message>
    <message>
        <source>Glints were left out, or pale ground seen between gills; light from both sides at about 45 degrees and dull the gloss, or blot wet tissue.</source>
        <translation>Glanzlichter wurden ausgelassen, oder heller Grund zwischen Lamellen; von beiden Seiten unter etwa 45 Grad beleuchten, Glanz mindern oder nasses Gewebe abtupfen.</translation>
    </message>
    <message>
        <source>The region lies outside the sheet's openings, or on a sheet that has none; make sure that it is not the sheet itself that is read.</source>
        <translation>Der Bereich liegt außerhalb der Öffnungen des Blattes oder auf einem Blatt ohne Öffnung; nachsehen, ob nicht das Blatt selbst gelesen wird.</translation>
    </message>
    <message>
        <source>Soil or another deposit seems to lie on it and was left out; brush it off, or draw the region clear of it.</source>
        <translation>Darauf scheint Erde oder ein anderer Abdruck zu liegen und wurde nicht mitgelesen; abbürsten, oder den Bereich frei davon zeichnen.</translation>
    </message>
    <message>
        <source>The region holds clearly different colours, and what is stated is about their mean; draw a smaller region on one of them.</source>
        <translation>Der Bereich enthält deutlich verschiedene Farben, und was dasteht, gilt ihrem Mittel; einen kleineren auf einer davon zeichnen.</translation>
    </message>
    <message>
        <source>Daylight was said, but by the raw file's own white a lamp or a tube lit the sheet; say which, or the stated tolerance is too small.</source>
        <translation>Tageslicht wurde angegeben, nach dem Weiß der Rohdatei beleuchtete aber eine Lampe oder Röhre das Blatt; angeben, welche, sonst ist die Toleranz zu klein.</translation>
    </message>
    <message>
        <source>Few pixels stand in the region; move closer or draw a larger one.</source>
        <translation>Wenige Pixel liegen im Bereich; näher herangehen oder einen größeren zeichnen.</translation>
    </message>
    <message>
        <source>No patch of the chart is near this colour; the uncertainty is larger for it.</source>
        <translation>Kein Feld des Blattes liegt nahe bei dieser Farbe; die Unsicherheit ist dafür größer.</translation>
    </message>
    <message>
        <source>The specimen does not lie in the sheet's plane, or may not, which widens L*; lay a cut piece flat at the sheet's height and say --height 0.</source>
        <translation>Die Probe liegt nicht oder vielleicht nicht in der Ebene des Blattes, was L* unsicherer macht; ein Schnittstück flach auf Höhe des Blattes legen und als Höhe 0 angeben.</translation>
    </message>
    <message>
        <source>No bare ground was seen round the specimen; the whole opening was taken as the specimen.</source>
        <translation>Um die Probe war kein blanker Grund zu sehen; die ganze Öffnung wurde als Probe genommen.</translation>
    </message>
    <message>
        <source>The sheet was not measured: its printed colours are only hoped for. Measuring it, or transferring values from a measured one, is the largest gain.</source>
        <translation>Das Blatt wurde nicht gemessen: Seine gedruckten Farben sind nur erhofft. Es zu messen, oder Werte von einem gemessenen zu übertragen, bringt am meisten.</translation>
    </message>
    <message>
        <source>The reference values do not fit this print, the chart's nominal ones fit better: give the file that was measured on this very sheet, or none.</source>
        <translation>Die Referenzwerte passen nicht zu diesem Druck, die Sollwerte des Blattes passen besser: die Datei angeben, die auf eben diesem Blatt gemessen wurde, oder keine.</translation>
    </message>
    <message>
        <source>The light changes a lot over the sheet; move it further away or use two sides, and avoid shadow edges.</source>
        <translation>Das Licht ändert sich stark über das Blatt; weiter weg rücken oder zwei Seiten benutzen, Schattenkanten vermeiden.</translation>
    </message>
    <message>
        <source>The sheet does not lie flat; fix it to a stiff board with glue or tape under it, and lay no weights on its rim.</source>
        <translation>Das Blatt liegt nicht flach; mit Kleber oder Klebeband darunter auf steifer Pappe befestigen und keine Gewichte auf den Rand legen.</translation>
    </message>
    <message>
        <source>The layer does not hide its ground: the colour as seen is partly the ground's; compare the masstone, or take a thicker deposit.</source>
        <translation>Die Schicht deckt ihren Untergrund nicht: die gesehene Farbe ist zum Teil die des Untergrunds; den Vollton vergleichen oder ein dickeres Pulver nehmen.</translation>
    </message>
    <message>
        <source>One of the photos does not agree with the others and was left out; look at its light and at its region.</source>
        <translation>Eines der Fotos stimmt mit den anderen nicht überein und wurde weggelassen; Licht und Bereich dieses Fotos ansehen.</translation>
    </message>
    <message>
        <source>The two photos differ by more than their uncertainties allow, and nothing tells which is wrong; take a third.</source>
        <translation>Die zwei Fotos weichen stärker voneinander ab, als ihre Unsicherheiten erlauben, und nichts sagt, welches falsch ist; ein drittes aufnehmen.</translation>
    </message>
    <message>
        <source>Many patches could not be used; clean the sheet and keep glare and shadow off it.</source>
        <translation>Viele Felder waren nicht brauchbar; das Blatt säubern und Spiegelung und Schatten fernhalten.</translation>
    </message>
    <message>
        <source>The sheet's paper holds optical brightener and glows bluish in daylight; print on uncoated paper without it.</source>
        <translation>Das Papier des Blattes enthält optischen Aufheller und leuchtet bei Tageslicht bläulich; auf ungestrichenes Papier ohne ihn drucken.</translation>
    </message>
    <message>
        <source>The camera brightened dark parts of the picture more than light ones; this was undone as far as the paper shows it. Switch off HDR and scene modes.</source>
        <translation>Die Kamera hat dunkle Bildteile stärker aufgehellt als helle; das wurde rückgängig gemacht, soweit das Papier es zeigt. HDR und Motivprogramme ausschalten.</translation>
    </message>
    <message>
        <source>The file names no colour profile; sRGB was assumed.</source>
        <translation>Die Datei nennt kein Farbprofil; sRGB wurde angenommen.</translation>
    </message>
    <message>
        <source>Colour never tells whether a mushroom is safe to eat: deadly and harmless kinds share their colours, stains and reactions.</source>
        <translation>Farbe sagt nie, ob ein Pilz essbar ist: Tödliche und harmlose Arten haben dieselben Farben, Verfärbungen und Reaktionen.</translation>
    </message>
    <message>
        <source>Reagents burn, and some are poisonous through the skin: read the safety data sheet, wear goggles and gloves.</source>
        <translation>Reagenzien ätzen, manche vergiften durch die Haut: Lies das Sicherheitsdatenblatt, trage Schutzbrille und Handschuhe.</translation>
    </message>
    <message>
        <source>Names of colours and finds are working names; a qualified identifier or a fungarium has the last word.</source>
        <translation>Namen von Farben und Funden sind Arbeitsnamen; eine sachkundige Person oder ein Fungarium hat das letzte Wort.</translation>
    </message>
    <message>
        <source>Dark or vivid colours of the region or of the sheet stand at the bottom of the range, where they look alike; use more light or a longer exposure, and the photo as the camera wrote it.</source>
        <translation>Dunkle oder kräftige Farben des Bereichs oder des Blattes stehen am unteren Ende des Tonumfangs, wo sie gleich aussehen; mehr Licht oder länger belichten, und das Foto so nehmen, wie die Kamera es geschrieben hat.</translation>
    </message>
    <message>
        <source>Two grounds lie in the opening, and only what stands out from both was read, apart over each; draw a region over each, or photograph the deposit over each and read both with --two-backings.</source>
        <translation>In der Öffnung liegen zwei Untergründe, und nur was sich von beiden abhebt, wurde gelesen, über jedem für sich; über jedem einen Bereich zeichnen, oder den Sporenabdruck über jedem fotografieren und beide mit --two-backings lesen.</translation>
    </message>
    <message>
        <source>The photo is blurred, which mixes the colours on both sides of every edge; rest the camera on something and tap on the sheet to focus.</source>
        <translation>Das Foto ist unscharf, sodass sich an jeder Kante die Farben beider Seiten mischen; die Kamera auflegen und zum Scharfstellen auf das Blatt tippen.</translation>
    </message>
    <message>
        <source>Rest the camera on something and tap on the sheet to focus.</source>
        <translation>Die Kamera auflegen und zum Scharfstellen auf das Blatt tippen.</translation>
    </message>
    <message>
        <source>Expose less (about -0.7 EV), so that bare paper is bright but not white.</source>
        <translation>Knapper belichten (etwa -0,7 EV), sodass blankes Papier hell, aber nicht weiß ist.</translation>
    </message>
    <message>
        <source>Use more light or a longer exposure; brightening afterwards does not help.</source>
        <translation>Mehr Licht oder längere Belichtung; nachträgliches Aufhellen hilft nicht.</translation>
    </message>
    <message>
        <source>Light from the sides at about 45 degrees, print on matt paper, blot wet tissue.</source>
        <translation>Von den Seiten unter etwa 45 Grad beleuchten, auf mattes Papier drucken, nasses Gewebe abtupfen.</translation>
    </message>
    <message>
        <source>Move the lamp further away or use two sides, and keep shadow edges off the sheet.</source>
        <translation>Die Lampe weiter wegrücken oder zwei Seiten benutzen, Schattenkanten vom Blatt fernhalten.</translation>
    </message>
    <message>
        <source>Move closer or use the full resolution of the camera.</source>
        <translation>Näher herangehen oder die volle Auflösung der Kamera benutzen.</translation>
    </message>
    <message>
        <source>Hold the camera parallel to the sheet and step back a little.</source>
        <translation>Die Kamera parallel zum Blatt halten und etwas zurückgehen.</translation>
    </message>
    <message>
        <source>Fix the sheet to a stiff board.</source>
        <translation>Das Blatt auf eine steife Pappe kleben.</translation>
    </message>
    <message>
        <source>One photo does not tell every lamp from daylight: say what the light was, and the tolerance fits it.</source>
        <translation>Ein Foto unterscheidet nicht jede Lampe vom Tageslicht: angeben, welches Licht es war; die Toleranz passt dann dazu.</translation>
    </message>
    <message>
        <source>A lamp as cool as daylight passes for it: if it was one, say so, and the tolerance fits it.</source>
        <translation>Eine Lampe, so kühl wie Tageslicht, geht als solches durch: War es eine, dann angeben; die Toleranz passt dann dazu.</translation>
    </message>
    <message>
        <source>by the raw file's own daylight white %1 % likely a lamp or a tube</source>
        <translation>nach dem Tageslicht-Weiß der Rohdatei zu %1 % eine Lampe oder Röhre</translation>
    </message>
    <message>
        <source>One photo cannot show how high the specimen stands: level it with the paper, or say the height.</source>
        <translation>Ein Foto zeigt nicht, wie hoch die Probe steht: auf Papierhöhe bringen oder die Höhe angeben.</translation>
    </message>
    <message>
        <source>Have the sheet measured, or carry values over from a measured one: this is the largest gain.</source>
        <translation>Das Blatt messen lassen oder Werte von einem gemessenen übertragen: Das bringt am meisten.</translation>
    </message>
    <message>
        <source>brightest paper at %1 % of full scale, %2 of %3 patches over-exposed</source>
        <translation>hellstes Papier bei %1 % des Vollausschlags, %2 von %3 Feldern überbelichtet</translation>
    </message>
    <message>
        <source>%1 patches with glare or dust, at most %2 % glints in a region</source>
        <translation>%1 Felder mit Glanz oder Staub, höchstens %2 % Glanzlichter in einem Bereich</translation>
    </message>
    <message>
        <source>%1 to %2 pixels a millimetre</source>
        <translation>%1 bis %2 Pixel je Millimeter</translation>
    </message>
    <message>
        <source>nearest corner shown %1 times as large as the farthest</source>
        <translation>die nächste Ecke %1-mal so groß abgebildet wie die fernste</translation>
    </message>
    <message>
        <source>borders spread over %1 px (%2 mm)</source>
        <translation>Kanten über %1 px (%2 mm) verschmiert</translation>
    </message>
    <message>
        <source>light differs by ΔE00 %1 across the sheet</source>
        <translation>Licht unterscheidet sich über das Blatt um ΔE00 %1</translation>
    </message>
    <message>
        <source>kind not said</source>
        <translation>Art nicht gesagt</translation>
    </message>
    <message>
        <source>you said daylight</source>
        <translation>angegeben: Tageslicht</translation>
    </message>
    <message>
        <source>you said lamp</source>
        <translation>angegeben: Lampe</translation>
    </message>
    <message>
        <source>you said tube</source>
        <translation>angegeben: Leuchtstoffröhre</translation>
    </message>
    <message>
        <source>you said mixed</source>
        <translation>angegeben: gemischt</translation>
    </message>
    <message>
        <source>patch edges lie within %1 mm of a flat sheet</source>
        <translation>Feldkanten liegen bis auf %1 mm wie auf einem flachen Blatt</translation>
    </message>
    <message>
        <source>you said %1 mm above the sheet</source>
        <translation>angegeben: %1 mm über dem Blatt</translation>
    </message>
    <message>
        <source>taken to lie in the sheet's plane</source>
        <translation>als in der Ebene des Blattes liegend genommen</translation>
    </message>
    <message>
        <source>not known; the uncertainty of L* allows for it</source>
        <translation>nicht bekannt; die Unsicherheit von L* berücksichtigt es</translation>
    </message>
    <message>
        <source>values of the patches: measured</source>
        <translation>Werte der Felder: gemessen</translation>
    </message>
    <message>
        <source>values of the patches: transferred</source>
        <translation>Werte der Felder: übertragen</translation>
    </message>
    <message>
        <source>values of the patches: nominal</source>
        <translation>Werte der Felder: Sollfarben</translation>
    </message>
    <message>
        <source>Check that the folder exists, may be written to and has room; what was there before is unchanged.</source>
        <translation>Prüfe, ob es den Ordner gibt, ob er beschrieben werden darf und Platz hat; was vorher da war, ist unverändert.</translation>
    </message>
    <message>
        <source>Check the name and folder.</source>
        <translation>Prüfe Name und Ordner.</translation>
    </message>
    <message>
        <source>Name a file in it.</source>
        <translation>Nenne eine Datei darin.</translation>
    </message>
    <message>
        <source>Make sure that it is the right file.</source>
        <translation>Prüfe, ob es die richtige Datei ist.</translation>
    </message>
    <message>
        <source>Check that you may read it.</source>
        <translation>Prüfe, ob du sie lesen darfst.</translation>
    </message>
    <message>
        <source>Copy or export it again.</source>
        <translation>Kopiere oder exportiere sie noch einmal.</translation>
    </message>
    <message>
        <source>Copy it again from the camera or phone; if it opens elsewhere, export it as JPEG or TIFF.</source>
        <translation>Kopiere es noch einmal von Kamera oder Telefon; wenn es sich anderswo öffnen lässt, exportiere es als JPEG oder TIFF.</translation>
    </message>
    <message>
        <source>Copy the photo again from the camera or phone, whole and unchanged.</source>
        <translation>Kopiere das Foto noch einmal ganz und unverändert von Kamera oder Telefon.</translation>
    </message>
    <message>
        <source>Check that it is the right file; export a huge photo at a smaller size.</source>
        <translation>Prüfe, ob es die richtige Datei ist; exportiere ein riesiges Foto kleiner.</translation>
    </message>
    <message>
        <source>Export the photo at a smaller size or with 8 bits per channel.</source>
        <translation>Exportiere das Foto kleiner oder mit 8 Bit je Kanal.</translation>
    </message>
    <message>
        <source>Close other programs or export it at a smaller size.</source>
        <translation>Schließe andere Programme, oder exportiere es kleiner.</translation>
    </message>
    <message>
        <source>Export the photo as JPEG, or set the camera to its most compatible format.</source>
        <translation>Exportiere das Foto als JPEG, oder stelle die Kamera auf ihr verträglichstes Format.</translation>
    </message>
    <message>
        <source>Export the photo as JPEG.</source>
        <translation>Exportiere das Foto als JPEG.</translation>
    </message>
    <message>
        <source>Export the photo as an ordinary 8-bit JPEG or as TIFF.</source>
        <translation>Exportiere das Foto als gewöhnliches JPEG mit 8 Bit oder als TIFF.</translation>
    </message>
    <message>
        <source>Export the photo as RGB, best as sRGB.</source>
        <translation>Exportiere das Foto als RGB, am besten als sRGB.</translation>
    </message>
    <message>
        <source>Convert it to DNG, or use the camera's JPEG.</source>
        <translation>Wandle es in DNG um, oder nimm das JPEG der Kamera.</translation>
    </message>
    <message>
        <source>Use the camera's JPEG.</source>
        <translation>Nimm das JPEG der Kamera.</translation>
    </message>
    <message>
        <source>Export the photo as TIFF with 8 or 16 bits per channel in RGB, or as PNG or JPEG.</source>
        <translation>Exportiere das Foto als TIFF mit 8 oder 16 Bit je Kanal in RGB, oder als PNG oder JPEG.</translation>
    </message>
    <message>
        <source>Switch HDR off in the camera, or export the photo as JPEG in sRGB.</source>
        <translation>Schalte HDR in der Kamera ab, oder exportiere das Foto als JPEG in sRGB.</translation>
    </message>
    <message>
        <source>Export the photo again as sRGB.</source>
        <translation>Exportiere das Foto noch einmal als sRGB.</translation>
    </message>
    <message>
        <source>Lay the sheet flat and take the photo from above, with all of the sheet in the frame.</source>
        <translation>Lege das Blatt flach hin und fotografiere von oben, mit dem ganzen Blatt im Bild.</translation>
    </message>
    <message>
        <source>Photograph one sheet at a time.</source>
        <translation>Fotografiere jeweils nur ein Blatt.</translation>
    </message>
    <message>
        <source>Say which chart is in the photo, or give its definition file.</source>
        <translation>Sage, welches Blatt im Foto ist, oder nenne die Datei seiner Beschreibung.</translation>
    </message>
    <message>
        <source>Say which of the two is in the photo.</source>
        <translation>Sage, welches der beiden im Foto ist.</translation>
    </message>
    <message>
        <source>Take it again in focus and with a steady hand or a support.</source>
        <translation>Fotografiere noch einmal, scharf und mit ruhiger Hand oder aufgestützt.</translation>
    </message>
    <message>
        <source>Take the photo nearer and in focus.</source>
        <translation>Fotografiere näher und scharf.</translation>
    </message>
    <message>
        <source>Take the photo with all of the sheet in the frame and nothing lying on its markers.</source>
        <translation>Fotografiere mit dem ganzen Blatt im Bild; auf den Marken darf nichts liegen.</translation>
    </message>
    <message>
        <source>Take the photo with all of the sheet in the frame.</source>
        <translation>Fotografiere mit dem ganzen Blatt im Bild.</translation>
    </message>
    <message>
        <source>Use the photo as the camera took it, or mirror it back.</source>
        <translation>Nimm das Foto, wie die Kamera es aufnahm, oder spiegle es zurück.</translation>
    </message>
    <message>
        <source>Give the sheet's four corners in the photo.</source>
        <translation>Gib die vier Ecken des Blattes im Foto an.</translation>
    </message>
    <message>
        <source>Check the chart's name and the four corners: the sheet's own, each to within about 1 % of its size, top-left, top-right, bottom-right, bottom-left.</source>
        <translation>Prüfe den Namen des Blattes und die vier Ecken: seine eigenen, jede auf etwa 1 % seiner Größe genau, oben links, oben rechts, unten rechts, unten links.</translation>
    </message>
    <message>
        <source>Check that the chart and the reference file belong to this sheet, that it lies the right way round, and that no patch is dirty, wet, in glare or in a shadow.</source>
        <translation>Prüfe, ob Beschreibung und Werte zu diesem Blatt gehören, ob es richtig herum liegt und kein Feld schmutzig, nass, im Glanz oder im Schatten ist.</translation>
    </message>
    <message>
        <source>Multiply them by 100, or export them as they are meant: L* from 0 to 100, a* and b* beside it.</source>
        <translation>Multipliziere sie mit 100, oder gib sie so aus, wie sie gemeint sind: L* von 0 bis 100, a* und b* daneben.</translation>
    </message>
    <message>
        <source>Export a* and b* as they are meant; a print without colours cannot serve.</source>
        <translation>Gib a* und b* so aus, wie sie gemeint sind; ein Druck ohne Farben kann nicht dienen.</translation>
    </message>
    <message>
        <source>Correct the columns and their names, and give the file again.</source>
        <translation>Berichtige die Spalten und ihre Namen, und gib die Datei noch einmal an.</translation>
    </message>
    <message>
        <source>Check that the rows, columns and scales are right, and that the file was measured on a print of this chart.</source>
        <translation>Prüfe, ob Zeilen, Spalten und Skalen stimmen und ob an einem Druck dieses Blattes gemessen wurde.</translation>
    </message>
    <message>
        <source>Check the year.</source>
        <translation>Prüfe das Jahr.</translation>
    </message>
    <message>
        <source>Change them round, or correct one.</source>
        <translation>Vertausche sie, oder berichtige eine der beiden Angaben.</translation>
    </message>
    <message>
        <source>Keep the paper round the opening clean and in view, and avoid over-exposure.</source>
        <translation>Halte das Papier um die Öffnung sauber und im Bild, und belichte nicht zu reichlich.</translation>
    </message>
    <message>
        <source>Take the photo again with the whole sheet in view, sharp, without glare and not over-exposed.</source>
        <translation>Fotografiere noch einmal, das ganze Blatt im Bild, scharf, ohne Glanz und nicht überbelichtet.</translation>
    </message>
    <message>
        <source>Use a colour photo, not a black-and-white one.</source>
        <translation>Nimm ein Farbfoto, kein schwarzweißes.</translation>
    </message>
    <message>
        <source>Clean the sheet, keep glare and shadow off it, and expose less if patches are clipped.</source>
        <translation>Säubere das Blatt, halte Glanz und Schatten fern, und belichte knapper, wenn Felder überbelichtet sind.</translation>
    </message>
    <message>
        <source>Keep the paper between the patches clean, in view and not over-exposed.</source>
        <translation>Halte das Papier zwischen den Feldern sauber, im Bild und nicht überbelichtet.</translation>
    </message>
    <message>
        <source>Choose a region of one colour, without dirt, gaps or a shadow, on the deposit alone.</source>
        <translation>Wähle einen Bereich von einer Farbe, ohne Schmutz, Lücken oder Schatten, nur auf dem Sporenabdruck.</translation>
    </message>
    <message>
        <source>Draw a larger region or move the camera closer.</source>
        <translation>Zeichne einen größeren Bereich, oder gehe mit der Kamera näher heran.</translation>
    </message>
    <message>
        <source>Draw a larger region.</source>
        <translation>Zeichne einen größeren Bereich.</translation>
    </message>
    <message>
        <source>Draw the region inside; coordinates start at the top-left corner.</source>
        <translation>Zeichne den Bereich innerhalb; die Koordinaten beginnen an der Ecke oben links.</translation>
    </message>
    <message>
        <source>Take the photo again with the whole opening in view.</source>
        <translation>Fotografiere noch einmal mit der ganzen Öffnung im Bild.</translation>
    </message>
    <message>
        <source>Take the photo again with more light or a longer exposure, and use it as the camera wrote it: darkening or more contrast afterwards loses what the dark colours were.</source>
        <translation>Fotografiere noch einmal mit mehr Licht oder länger belichtet, und nimm das Foto so, wie die Kamera es geschrieben hat: Nachträgliches Abdunkeln oder mehr Kontrast verliert, was die dunklen Farben waren.</translation>
    </message>
    <message>
        <source>Draw a region over each of the sheet&apos;s grounds, clear of the border between them.</source>
        <translation>Zeichne über jedem der beiden Untergründe des Blattes einen Bereich, mit Abstand zur Grenze dazwischen.</translation>
    </message>
    <message>
        <source>Draw a region over each ground with --region, or lay the cards edge to edge and leave their straight border bare on both sides of the deposit.</source>
        <translation>Zeichne mit --region über jedem Untergrund einen Bereich, oder lege die Karten Kante an Kante und lass ihre gerade Grenze auf beiden Seiten des Abdrucks frei.</translation>
    </message>
    <message>
        <source>Take the photo again with less exposure or without the glare.</source>
        <translation>Fotografiere noch einmal, knapper belichtet oder ohne den Glanz.</translation>
    </message>
    <message>
        <source>Light it softly from both sides, or move the deposit to matt card.</source>
        <translation>Beleuchte weich von beiden Seiten, oder bringe den Abdruck auf matten Karton.</translation>
    </message>
    <message>
        <source>Leave some bare ground of the same kind round the deposit.</source>
        <translation>Lass um den Abdruck etwas blanken Grund derselben Art frei.</translation>
    </message>
    <message>
        <source>Lay the specimen in the opening on a ground of another colour, or say where it lies with --region.</source>
        <translation>Lege die Probe in der Öffnung auf einen Grund anderer Farbe, oder zeichne den Bereich selbst.</translation>
    </message>
    <message>
        <source>Start inside the opening.</source>
        <translation>Beginne innerhalb der Öffnung.</translation>
    </message>
    <message>
        <source>Start on an even patch of colour, or allow a larger difference.</source>
        <translation>Beginne auf einer gleichmäßigen Farbe, oder lass einen größeren Unterschied zu.</translation>
    </message>
    <message>
        <source>See docs/reference/regions_format.md for the form of a regions file.</source>
        <translation>Die Form einer Bereichsdatei steht in docs/reference/regions_format.md.</translation>
    </message>
    <message>
        <source>The place lies outside the photo.</source>
        <translation>Die Stelle liegt außerhalb des Fotos.</translation>
    </message>
    <message>
        <source>Point inside the photo.</source>
        <translation>Zeige auf das Foto.</translation>
    </message>
    <message>
        <source>A series follows a spot (a reagent) or a bruise, and none of the regions is of these kinds.</source>
        <translation>Eine Reihe verfolgt einen Fleck (ein Reagenz) oder eine Druckstelle, und keiner der Bereiche ist von dieser Art.</translation>
    </message>
    <message>
        <source>Draw one and choose its kind on the page 'One photo', then come back.</source>
        <translation>Zeichne einen solchen auf der Seite „Ein Foto“, wähle seine Art und komm dann zurück.</translation>
    </message>
    <message>
        <source>Move the control clear of the drop and of where it spreads, or leave it out.</source>
        <translation>Lege die Kontrolle neben den Tropfen, weg von allem, wohin er sich ausbreitet, oder lass sie weg.</translation>
    </message>
    <message>
        <source>Leave the interval out; if the clock is wrong, give the times with --times T.csv.</source>
        <translation>Lass den Abstand weg; geht die Uhr falsch, gib die Zeiten mit --times T.csv an.</translation>
    </message>
    <message>
        <source>A series needs to be told where to look, and no region was drawn.</source>
        <translation>Eine Reihe muss wissen, wo gemessen wird, und es wurde kein Bereich gezeichnet.</translation>
    </message>
    <message>
        <source>Draw the spot and its controls in one of the photos on the page 'One photo', then come back.</source>
        <translation>Zeichne den Fleck und seine Kontrollen in eines der Fotos auf der Seite „Ein Foto“, dann komm zurück.</translation>
    </message>
    <message>
        <source>Name one video alone, or photos only.</source>
        <translation>Nenne ein Video für sich allein, oder nur Fotos.</translation>
    </message>
    <message>
        <source>There is no series to move the zero of.</source>
        <translation>Es gibt keine Reihe, deren Nullpunkt sich verschieben ließe.</translation>
    </message>
    <message>
        <source>Read a series first.</source>
        <translation>Miss zuerst eine Reihe.</translation>
    </message>
    <message>
        <source>There is no course to take key moments from.</source>
        <translation>Es gibt keinen Verlauf, aus dem Augenblicke zu nehmen wären.</translation>
    </message>
    <message>
        <source>Read a series with a spot or a bruise first.</source>
        <translation>Miss zuerst eine Reihe mit einem Fleck oder einer Druckstelle.</translation>
    </message>
    <message>
        <source>Take one photo before the drop and several after it.</source>
        <translation>Mach ein Foto vor dem Tropfen und mehrere danach.</translation>
    </message>
    <message>
        <source>Put the photos into a folder of their own.</source>
        <translation>Lege die Fotos in einen eigenen Ordner.</translation>
    </message>
    <message>
        <source>Play it to see whether it is whole; copy it from the phone again if not.</source>
        <translation>Spiele es ab, um zu sehen, ob es ganz ist; wenn nicht, kopiere es noch einmal vom Telefon.</translation>
    </message>
    <message>
        <source>Convert it to H.264.</source>
        <translation>Wandle es in H.264 um.</translation>
    </message>
    <message>
        <source>Film at a lower resolution.</source>
        <translation>Filme mit geringerer Auflösung.</translation>
    </message>
    <message>
        <source>Film with HDR switched off, or convert the video to standard range.</source>
        <translation>Filme ohne HDR, oder wandle das Video in den gewöhnlichen Umfang um.</translation>
    </message>
    <message>
        <source>There is no record to add.</source>
        <translation>Es gibt kein Protokoll hinzuzufügen.</translation>
    </message>
    <message>
        <source>Read a photo first, or choose record files.</source>
        <translation>Miss zuerst ein Foto, oder wähle Protokolldateien.</translation>
    </message>
    <message>
        <source>No collection is listed, so there is nothing to export.</source>
        <translation>Es ist keine Aufsammlung aufgelistet, also gibt es nichts zu exportieren.</translation>
    </message>
    <message>
        <source>Search for something that is there first.</source>
        <translation>Suche zuerst etwas, das es gibt.</translation>
    </message>
    <message>
        <source>Only one of latitude and longitude was typed.</source>
        <translation>Von Breite und Länge wurde nur eines eingegeben.</translation>
    </message>
    <message>
        <source>Give both, or neither.</source>
        <translation>Gib beide an oder keines.</translation>
    </message>
    <message>
        <source>Write it like 2031, 2031-10 or 2031-10-05.</source>
        <translation>Schreibe es wie 2031, 2031-10 oder 2031-10-05.</translation>
    </message>
    <message>
        <source>Write it like 2031-10-05 or 2031-10-05T11:07+02:00.</source>
        <translation>Schreibe es wie 2031-10-05 oder 2031-10-05T11:07+02:00.</translation>
    </message>
    <message>
        <source>Write it with a decimal point.</source>
        <translation>Schreibe es mit Dezimalpunkt.</translation>
    </message>
    <message>
        <source>Check value and unit.</source>
        <translation>Prüfe Wert und Einheit.</translation>
    </message>
    <message>
        <source>Say yes or no, or leave it out.</source>
        <translation>Sage ja oder nein (yes, no), oder lass es weg.</translation>
    </message>
    <message>
        <source>Choose another number.</source>
        <translation>Wähle eine andere Nummer.</translation>
    </message>
    <message>
        <source>Give it the number on its slip, for example QH-03.</source>
        <translation>Gib ihr die Nummer ihres Zettels, zum Beispiel QH-03.</translation>
    </message>
    <message>
        <source>Use a newer tintfall; nothing was changed.</source>
        <translation>Nimm ein neueres tintfall; es wurde nichts geändert.</translation>
    </message>
    <message>
        <source>Look there for a missing comma, quote or bracket, or write the file again.</source>
        <translation>Suche dort ein fehlendes Komma, Anführungszeichen oder eine Klammer, oder schreibe die Datei noch einmal.</translation>
    </message>
    <message>
        <source>Open the photo itself; the regions can also be loaded from a regions file.</source>
        <translation>Öffne das Foto selbst; die Bereiche lassen sich auch aus einer Bereichsdatei laden.</translation>
    </message>
    <message>
        <source>Start it again when you like.</source>
        <translation>Beginne noch einmal, wann du magst.</translation>
    </message>
    <message>
        <source>decoding</source>
        <translation>wird gelesen</translation>
    </message>
    <message>
        <source>looking for markers</source>
        <translation>Marken werden gesucht</translation>
    </message>
    <message>
        <source>looking for the sheet</source>
        <translation>das Blatt wird gesucht</translation>
    </message>
    <message>
        <source>placing the sheet</source>
        <translation>das Blatt wird angelegt</translation>
    </message>
    <message>
        <source>measuring patches and paper</source>
        <translation>Felder und Papier werden gemessen</translation>
    </message>
    <message>
        <source>calibrating</source>
        <translation>wird kalibriert</translation>
    </message>
    <message>
        <source>reading the specimen</source>
        <translation>die Probe wird gemessen</translation>
    </message>
    <message>
        <source>done</source>
        <translation>fertig</translation>
    </message>
    <message>
        <source>sheet placed</source>
        <translation>Blatt angelegt</translation>
    </message>
    <message>
        <source>grouping</source>
        <translation>wird gruppiert</translation>
    </message>
    <message>
        <source>comparing pairs</source>
        <translation>Paare werden verglichen</translation>
    </message>
    <message>
        <source>reading records</source>
        <translation>Protokolle werden gelesen</translation>
    </message>
    <message>
        <source>comparing colours with the start</source>
        <translation>Farben werden mit dem Anfang verglichen</translation>
    </message>
    <message>
        <source>making smaller pictures</source>
        <translation>kleinere Bilder entstehen</translation>
    </message>
    <message>
        <source>the collection number on slip, print and photographs</source>
        <translation>die Nummer der Aufsammlung auf Zettel, Abwurf und Fotos</translation>
    </message>
    <message>
        <source>who collected it</source>
        <translation>wer es gesammelt hat</translation>
    </message>
    <message>
        <source>who wrote it down, if somebody else</source>
        <translation>wer es aufgeschrieben hat, falls jemand anderes</translation>
    </message>
    <message>
        <source>ISO 8601 date, or date and time with zone</source>
        <translation>Datum nach ISO 8601, oder Datum und Uhrzeit mit Zone</translation>
    </message>
    <message>
        <source>a name to work with</source>
        <translation>ein Name, mit dem gearbeitet wird</translation>
    </message>
    <message>
        <source>who gave that name</source>
        <translation>wer diesen Namen gab</translation>
    </message>
    <message>
        <source>what it grew on</source>
        <translation>worauf es wuchs</translation>
    </message>
    <message>
        <source>surroundings, nearest trees</source>
        <translation>Umgebung, nächste Bäume</translation>
    </message>
    <message>
        <source>which part: cap, stem, flesh, ...</source>
        <translation>welcher Teil: Hut, Stiel, Fleisch, ...</translation>
    </message>
    <message>
        <source>fresh, cold-stored, dried, ...</source>
        <translation>frisch, gekühlt, getrocknet, ...</translation>
    </message>
    <message>
        <source>hours since picking</source>
        <translation>Stunden seit dem Pflücken</translation>
    </message>
    <message>
        <source>what received the deposit: foil, card, glass, ...</source>
        <translation>was den Abwurf auffing: Folie, Karton, Glas, ...</translation>
    </message>
    <message>
        <source>when the cap was laid down</source>
        <translation>wann der Hut aufgelegt wurde</translation>
    </message>
    <message>
        <source>when the cap was lifted</source>
        <translation>wann der Hut abgehoben wurde</translation>
    </message>
    <message>
        <source>under a cover</source>
        <translation>unter einer Abdeckung</translation>
    </message>
    <message>
        <source>a drop of water on the cap</source>
        <translation>ein Wassertropfen auf dem Hut</translation>
    </message>
    <message>
        <source>when read: fresh, air-dried, ...</source>
        <translation>beim Messen: frisch, luftgetrocknet, ...</translation>
    </message>
    <message>
        <source>hours from lifting to photograph</source>
        <translation>Stunden vom Abheben bis zum Foto</translation>
    </message>
    <message>
        <source>scraped heap, as fallen, ...</source>
        <translation>zusammengeschabt, wie gefallen, ...</translation>
    </message>
    <message>
        <source>thickness of the layer</source>
        <translation>Dicke der Schicht</translation>
    </message>
    <message>
        <source>grounds it was photographed on</source>
        <translation>Untergründe, auf denen es fotografiert wurde</translation>
    </message>
    <message>
        <source>Y over black by Y over white</source>
        <translation>Y über Schwarz durch Y über Weiß</translation>
    </message>
    <message>
        <source>soil, algae, a second species, ...</source>
        <translation>Erde, Algen, eine zweite Art, ...</translation>
    </message>
    <message>
        <source>permit or permission</source>
        <translation>Genehmigung oder Erlaubnis</translation>
    </message>
    <message>
        <source>licence of the data</source>
        <translation>Lizenz der Daten</translation>
    </message>
    <message>
        <source>anything else</source>
        <translation>alles andere</translation>
    </message>
    <message>
        <source>searching</source>
        <translation>Suche</translation>
    </message>
    <message>
        <source>adding</source>
        <translation>wird aufgenommen</translation>
    </message>
    <message>
        <source>looking through the layers</source>
        <translation>Schichten werden durchschaut</translation>
    </message>
    <message>
        <source>%1 of %2 photos</source>
        <translation>%1 von %2 Fotos</translation>
    </message>
    <message>
        <source>%1 of %2 s, %3 frames read</source>
        <translation>%1 von %2 s, %3 Bilder gelesen</translation>
    </message>
    <message>
        <source>the start of the series</source>
        <translation>dem Beginn der Reihe</translation>
    </message>
    <message>
        <source>the first frame that shows a change</source>
        <translation>dem ersten Bild, das eine Änderung zeigt</translation>
    </message>
    <message>
        <source>the drop</source>
        <translation>dem Tropfen</translation>
    </message>
    <message>
        <source>the cut</source>
        <translation>dem Schnitt</translation>
    </message>
    <message>
        <source>the press</source>
        <translation>dem Druck</translation>
    </message>
    <message>
        <source>the scratch</source>
        <translation>dem Kratzen</translation>
    </message>
    <message>
        <source>the rub</source>
        <translation>dem Reiben</translation>
    </message>
    <message>
        <source>the break</source>
        <translation>dem Bruch</translation>
    </message>
    <message>
        <source>the injury</source>
        <translation>der Verletzung</translation>
    </message>
    <message>
        <source>tissue not said</source>
        <translation>Gewebe nicht angegeben</translation>
    </message>
    <message>
        <source>Reagent not said</source>
        <translation>Reagenz nicht angegeben</translation>
    </message>
    <message>
        <source>Bruise on %1</source>
        <translation>Druckstelle an %1</translation>
    </message>
    <message>
        <source>%1 on %2</source>
        <translation>%1 an %2</translation>
    </message>
    <message>
        <source>the untreated bruise</source>
        <translation>die unbehandelte Druckstelle</translation>
    </message>
    <message>
        <source>untreated bruise</source>
        <translation>unbehandelte Druckstelle</translation>
    </message>
    <message>
        <source>water</source>
        <translation>Wasser</translation>
    </message>
    <message>
        <source>water control</source>
        <translation>Wasserkontrolle</translation>
    </message>
    <message>
        <source>untreated tissue</source>
        <translation>unbehandeltes Gewebe</translation>
    </message>
    <message>
        <source>positive</source>
        <translation>positiv</translation>
    </message>
    <message>
        <source>negative, without a control</source>
        <translation>negativ, ohne Kontrolle</translation>
    </message>
    <message>
        <source>negative against %1</source>
        <translation>negativ gegen %1</translation>
    </message>
    <message>
        <source>wetting only</source>
        <translation>nur Benetzung</translation>
    </message>
    <message>
        <source>undecided: a steady change of ΔE00 %1 over the series, too even for a reaction to be told</source>
        <translation>unentschieden: eine stetige Änderung von ΔE00 %1 über die Reihe, zu gleichmäßig, um eine Reaktion zu erkennen</translation>
    </message>
    <message>
        <source>undecided: a change of ΔE00 %1 ± %2, at least %3 can be told from its control</source>
        <translation>unentschieden: eine Änderung von ΔE00 %1 ± %2, ab %3 lässt sie sich von der Kontrolle unterscheiden</translation>
    </message>
    <message>
        <source>void: reagent failed its known-positive check</source>
        <translation>ungültig: das Reagenz versagte an der bekannt positiven Probe</translation>
    </message>
    <message>
        <source>described only, too few frames for a verdict</source>
        <translation>nur beschrieben, zu wenige Bilder für ein Urteil</translation>
    </message>
    <message>
        <source>stays %1</source>
        <translation>bleibt %1</translation>
    </message>
    <message>
        <source>stays %1, %2</source>
        <translation>bleibt %1, %2</translation>
    </message>
    <message>
        <source>%1 and %2</source>
        <translation>%1 und %2</translation>
    </message>
    <message>
        <source>begins %1 after %2 (%3)</source>
        <translation>beginnt %1 nach %2 (%3)</translation>
    </message>
    <message>
        <source>begins %1 before %2 (%3)</source>
        <translation>beginnt %1 vor %2 (%3)</translation>
    </message>
    <message>
        <source>%1 before to %2 after</source>
        <translation>%1 davor bis %2 danach</translation>
    </message>
    <message>
        <source>begins more than %1 before %2</source>
        <translation>beginnt mehr als %1 vor %2</translation>
    </message>
    <message>
        <source>begins within %1 of %2</source>
        <translation>beginnt innerhalb von %1 nach %2</translation>
    </message>
    <message>
        <source>its beginning cannot be told</source>
        <translation>ihr Beginn ist nicht zu erkennen</translation>
    </message>
    <message>
        <source>halfway %1 later (%2)</source>
        <translation>halb vollzogen %1 später (%2)</translation>
    </message>
    <message>
        <source>halfway less than %1 later</source>
        <translation>halb vollzogen weniger als %1 später</translation>
    </message>
    <message>
        <source>halfway more than %1 later</source>
        <translation>halb vollzogen mehr als %1 später</translation>
    </message>
    <message>
        <source>its half time cannot be told</source>
        <translation>ihre Halbzeit ist nicht zu erkennen</translation>
    </message>
    <message>
        <source>fades to %1 by %2</source>
        <translation>verblasst zu %1 bis %2</translation>
    </message>
    <message>
        <source>turns to %1 by %2</source>
        <translation>geht über in %1 bis %2</translation>
    </message>
    <message>
        <source>%1 and still changing</source>
        <translation>%1 und noch im Gang</translation>
    </message>
    <message>
        <source>still changing at %1</source>
        <translation>bei %1 noch im Gang</translation>
    </message>
    <message>
        <source>complete by %1</source>
        <translation>abgeschlossen bis %1</translation>
    </message>
    <message>
        <source>no control</source>
        <translation>keine Kontrolle</translation>
    </message>
    <message>
        <source>%1 unchanged</source>
        <translation>%1 unverändert</translation>
    </message>
    <message>
        <source>%1 changed by ΔE00 %2, taken out</source>
        <translation>%1 um ΔE00 %2 verändert, herausgerechnet</translation>
    </message>
    <message>
        <source>%1 changed by ΔE00 %2, not taken out</source>
        <translation>%1 um ΔE00 %2 verändert, nicht herausgerechnet</translation>
    </message>
    <message>
        <source>%1 after %2, ΔE00 %3; too few frames to say when and how fast; %4</source>
        <translation>%1 nach %2, ΔE00 %3; zu wenige Bilder, um zu sagen, wann und wie schnell; %4</translation>
    </message>
    <message>
        <source>bruise control missing: bruising under the drop imitates a reaction</source>
        <translation>Kontrolle einer Druckstelle fehlt: Verfärben durch Verletzung unter dem Tropfen täuscht eine Reaktion vor</translation>
    </message>
    <message>
        <source>water control missing: wetting alone darkens tissue</source>
        <translation>Wasserkontrolle fehlt: schon Benetzung macht Gewebe dunkler</translation>
    </message>
    <message>
        <source>the reagent failed its known-positive check: doubt the reaction, too</source>
        <translation>das Reagenz versagte an der bekannt positiven Probe: auch diese Reaktion ist zweifelhaft</translation>
    </message>
    <message>
        <source>no control at all: light that changed stands in the course as change</source>
        <translation>gar keine Kontrolle: verändertes Licht steht im Verlauf als Änderung</translation>
    </message>
    <message>
        <source>Give the moment at which the drop fell or the wound was made, or --applied found.</source>
        <translation>Gib den Zeitpunkt an, zu dem der Tropfen fiel oder die Verletzung geschah, oder --applied found.</translation>
    </message>
    <message>
        <source>Move the control onto the same tissue, beside the drop, or leave it out.</source>
        <translation>Lege die Kontrolle auf dasselbe Gewebe, neben den Tropfen, oder lass sie weg.</translation>
    </message>
    <message>
        <source>the stated moment</source>
        <translation>dem angegebenen Zeitpunkt</translation>
    </message>
    <message>
        <source>the change began before the stated moment: how soon after the application cannot be told</source>
        <translation>die Änderung begann vor dem angegebenen Zeitpunkt: wie bald nach dem Auftragen, lässt sich nicht sagen</translation>
    </message>
    <message>
        <source>%1 stands out from all others and was left out.</source>
        <translation>%1 fällt aus allen anderen heraus und wurde weggelassen.</translation>
    </message>
    <message>
        <source>%1 stands out: its control %2 lies ΔE00 %3 from where the other photos have it, as another specimen or place would; it was left out.</source>
        <translation>%1 fällt heraus: seine Kontrolle %2 liegt ΔE00 %3 von dort entfernt, wo die anderen Fotos sie haben, wie bei einem anderen Stück oder einer anderen Stelle; es wurde weggelassen.</translation>
    </message>
    <message>
        <source>In more than %1 of %2 photos a control lies far from where the others have it: too many for strays, so none was left out for that.</source>
        <translation>In mehr als %1 von %2 Fotos liegt eine Kontrolle weit von dort entfernt, wo die anderen sie haben: zu viele für Ausreißer, deshalb wurde dafür keines weggelassen.</translation>
    </message>
    <message>
        <source>Two frames are described, not fitted: a curve through so few would fit whatever happened.</source>
        <translation>Zwei Bilder werden beschrieben, nicht angepasst: eine Kurve durch so wenige würde immer passen.</translation>
    </message>
    <message>
        <source>Three frames are described, not fitted: a curve through so few would fit whatever happened.</source>
        <translation>Drei Bilder werden beschrieben, nicht angepasst: eine Kurve durch so wenige würde immer passen.</translation>
    </message>
    <message>
        <source>Control %1 has no reading in any frame and was left out.</source>
        <translation>Die Kontrolle %1 hat in keinem Bild eine Messung und wurde weggelassen.</translation>
    </message>
    <message>
        <source>Controls have no reading in %1 of their frames; these were filled in from the frames beside.</source>
        <translation>Kontrollen haben in %1 ihrer Bilder keine Messung; diese wurden aus den Bildern daneben ergänzt.</translation>
    </message>
    <message>
        <source>%1 or faster</source>
        <translation>%1 oder schneller</translation>
    </message>
    <message>
        <source>%1 or slower</source>
        <translation>%1 oder langsamer</translation>
    </message>
    <message>
        <source>immediate</source>
        <translation>sofort</translation>
    </message>
    <message>
        <source>fast</source>
        <translation>rasch</translation>
    </message>
    <message>
        <source>moderate</source>
        <translation>mäßig rasch</translation>
    </message>
    <message>
        <source>slow</source>
        <translation>langsam</translation>
    </message>
    <message>
        <source>very slow</source>
        <translation>sehr langsam</translation>
    </message>
    <message>
        <source>delayed</source>
        <translation>verzögert</translation>
    </message>
    <message>
        <source>no</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>slight</source>
        <translation>schwach</translation>
    </message>
    <message>
        <source>clear</source>
        <translation>deutlich</translation>
    </message>
    <message>
        <source>strong</source>
        <translation>stark</translation>
    </message>
    <message>
        <source>very strong</source>
        <translation>sehr stark</translation>
    </message>
    <message>
        <source>%1 to %2</source>
        <translation>%1 zu %2</translation>
    </message>
    <message>
        <source>no change beyond the uncertainty</source>
        <translation>keine Änderung über die Unsicherheit hinaus</translation>
    </message>
    <message>
        <source>no visible change</source>
        <translation>keine sichtbare Änderung</translation>
    </message>
    <message>
        <source>faint change</source>
        <translation>schwach sichtbare Änderung</translation>
    </message>
    <message>
        <source>slight change</source>
        <translation>leichte Änderung</translation>
    </message>
    <message>
        <source>clear change</source>
        <translation>deutliche Änderung</translation>
    </message>
    <message>
        <source>strong change</source>
        <translation>starke Änderung</translation>
    </message>
    <message>
        <source>very strong change</source>
        <translation>sehr starke Änderung</translation>
    </message>
    <message>
        <source>darker</source>
        <translation>dunkler</translation>
    </message>
    <message>
        <source>lighter</source>
        <translation>heller</translation>
    </message>
    <message>
        <source>duller</source>
        <translation>stumpfer</translation>
    </message>
    <message>
        <source>more purplish red</source>
        <translation>mehr purpurrot</translation>
    </message>
    <message>
        <source>redder</source>
        <translation>röter</translation>
    </message>
    <message>
        <source>more orange</source>
        <translation>mehr orange</translation>
    </message>
    <message>
        <source>yellower</source>
        <translation>gelber</translation>
    </message>
    <message>
        <source>greener</source>
        <translation>grüner</translation>
    </message>
    <message>
        <source>more blue-green</source>
        <translation>mehr blaugrün</translation>
    </message>
    <message>
        <source>bluer</source>
        <translation>blauer</translation>
    </message>
    <message>
        <source>more violet</source>
        <translation>mehr violett</translation>
    </message>
    <message>
        <source>A label has 1 to 64 characters and no space at its ends.</source>
        <translation>Ein Kennzeichen hat 1 bis 64 Zeichen und kein Leerzeichen am Anfang oder Ende.</translation>
    </message>
    <message>
        <source>Name the sheet as written on it.</source>
        <translation>Nenne das Blatt so, wie es darauf steht.</translation>
    </message>
    <message>
        <source>Write the day of printing as for example 2031-03-01.</source>
        <translation>Schreibe den Tag des Drucks zum Beispiel als 2031-03-01.</translation>
    </message>
    <message>
        <source>Choose another label, or say that it replaces that one (--replace).</source>
        <translation>Wähle ein anderes Kennzeichen, oder sage, dass es jenes Blatt ersetzt (--replace).</translation>
    </message>
    <message>
        <source>A4 frame with one wide opening</source>
        <translation>A4-Rahmen mit einer breiten Öffnung</translation>
    </message>
    <message>
        <source>A5 frame with one opening</source>
        <translation>A5-Rahmen mit einer Öffnung</translation>
    </message>
    <message>
        <source>US Letter frame with one wide opening</source>
        <translation>Rahmen in US Letter mit einer breiten Öffnung</translation>
    </message>
    <message>
        <source>Strip to lay beside a mushroom</source>
        <translation>Streifen, der neben einen Pilz gelegt wird</translation>
    </message>
    <message>
        <source>A5 frame with a black and a white ground</source>
        <translation>A5-Rahmen mit schwarzem und weißem Grund</translation>
    </message>
    <message>
        <source>Below %1 collectors, distances from their own consensus are described, not judged.</source>
        <translation>Unter %1 Sammlern werden Abstände von ihrem eigenen Konsens nur beschrieben, nicht beurteilt.</translation>
    </message>
    <message>
        <source>Where a collector has fewer than three items and fewer than three readings, the bias is described, not judged.</source>
        <translation>Wo ein Sammler weniger als drei Funde und weniger als drei Messungen hat, wird seine Abweichung nur beschrieben, nicht beurteilt.</translation>
    </message>
    <message>
        <source>With fewer than three items a bias holds for these items only: on other colours it may be another.</source>
        <translation>Mit weniger als drei Funden gilt eine Abweichung nur für diese: bei anderen Farben kann sie anders sein.</translation>
    </message>
    <message>
        <source>No record says which item it shows: all are taken as one item.</source>
        <translation>Kein Datensatz sagt, welchen Fund er zeigt: alle gelten als ein Fund.</translation>
    </message>
    <message>
        <source>%1 of %2 readings do not say which item they show: these are taken as one item.</source>
        <translation>%1 von %2 Messungen sagen nicht, welchen Fund sie zeigen: sie gelten als ein Fund.</translation>
    </message>
    <message>
        <source>%1 of %2 readings name no collector: each counts as somebody&apos;s only reading, and takes no part in precision and bias.</source>
        <translation>%1 von %2 Messungen nennen keinen Sammler: jede zählt als jemandes einzige Messung und geht in Genauigkeit und Abweichung nicht ein.</translation>
    </message>
    <message>
        <source>Item %1 mixes readings of different %2: %3.</source>
        <translation>Fund %1 mischt Messungen mit verschiedenen Angaben (%2): %3.</translation>
    </message>
    <message>
        <source>It was refused: %1</source>
        <translation>Sie wurde abgelehnt: %1</translation>
    </message>
    <message>
        <source>It is the reading of %1 once more (same photo, same numbers).</source>
        <translation>Es ist noch einmal die Messung von %1 (dasselbe Foto, dieselben Zahlen).</translation>
    </message>
    <message>
        <source>It holds a number that is none.</source>
        <translation>Sie enthält eine Zahl, die keine ist.</translation>
    </message>
    <message>
        <source>It states no uncertainty, so nothing can be said about its difference from others.</source>
        <translation>Sie nennt keine Unsicherheit; über ihren Unterschied zu anderen lässt sich deshalb nichts sagen.</translation>
    </message>
    <message>
        <source>It holds no reading.</source>
        <translation>Es enthält keine Messung.</translation>
    </message>
    <message>
        <source>It holds no reading of the kind that is compared.</source>
        <translation>Es enthält keine Messung der Art, die verglichen wird.</translation>
    </message>
</context>
<context>
    <name>main</name>
    <message>
        <source>Calibrated colours of fungal deposits, spot tests and bruises from a photograph</source>
        <translation>Kalibrierte Farben von Sporenabdrücken, Reagenzflecken und Druckstellen aus einem Foto</translation>
    </message>
    <message>
        <source>A photo or saved work to open</source>
        <translation>Ein Foto oder gespeicherte Arbeit zum Öffnen</translation>
    </message>
    <message>
        <source>The window has no screen to open on: %1. Start it in a desktop session, or read the photo with the command 'tintfall read'.</source>
        <translation>Das Fenster hat keinen Bildschirm, auf dem es sich öffnen kann: %1. Starte es in einer Arbeitsumgebung, oder lies das Foto mit dem Befehl „tintfall read“.</translation>
    </message>
    <message>
        <source>'%1' cannot be reached or used</source>
        <translation>„%1“ ist nicht erreichbar oder nicht zu gebrauchen</translation>
    </message>
    <message>
        <source>DISPLAY, WAYLAND_DISPLAY and QT_QPA_PLATFORM are all unset</source>
        <translation>DISPLAY, WAYLAND_DISPLAY und QT_QPA_PLATFORM sind nicht gesetzt</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::HitModel</name>
    <message>
        <source>truly within the distance asked for with a probability of %1 %</source>
        <translation>mit einer Wahrscheinlichkeit von %1 % wirklich innerhalb des gesuchten Abstands</translation>
    </message>
    <message>
        <source>no reading</source>
        <translation>keine Messung</translation>
    </message>
    <message>
        <source>Number</source>
        <translation>Nummer</translation>
    </message>
    <message>
        <source>Colour in words</source>
        <translation>Farbe in Worten</translation>
    </message>
    <message>
        <source>L*  a*  b*   ±ΔE00</source>
        <translation>L*  a*  b*   ±ΔE00</translation>
    </message>
    <message>
        <source>ΔE00 away</source>
        <translation>ΔE00 entfernt</translation>
    </message>
    <message>
        <source>Region</source>
        <translation>Bereich</translation>
    </message>
    <message>
        <source>Collector</source>
        <translation>Sammler</translation>
    </message>
    <message>
        <source>Collected</source>
        <translation>Gesammelt</translation>
    </message>
    <message>
        <source>%1, read by %2</source>
        <translation>%1, gemessen von %2</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::CollectionModel</name>
    <message>
        <source>%1 in %2</source>
        <translation>%1 in %2</translation>
    </message>
    <message>
        <source>Number</source>
        <translation>Nummer</translation>
    </message>
    <message>
        <source>Working name</source>
        <translation>Arbeitsname</translation>
    </message>
    <message>
        <source>Collector</source>
        <translation>Sammler</translation>
    </message>
    <message>
        <source>Collected</source>
        <translation>Gesammelt</translation>
    </message>
    <message>
        <source>Readings in records</source>
        <translation>Messungen in Protokollen</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::FieldModel</name>
    <message>
        <source>Field</source>
        <translation>Feld</translation>
    </message>
    <message>
        <source>What was said</source>
        <translation>Was gesagt wurde</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::RecordModel</name>
    <message>
        <source>%1 (removed)</source>
        <translation>%1 (entfernt)</translation>
    </message>
    <message>
        <source>Photo</source>
        <translation>Foto</translation>
    </message>
    <message>
        <source>Readings</source>
        <translation>Messungen</translation>
    </message>
    <message>
        <source>Taken</source>
        <translation>Aufgenommen</translation>
    </message>
    <message>
        <source>Read by</source>
        <translation>Gemessen von</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::ChangeModel</name>
    <message>
        <source>When</source>
        <translation>Wann</translation>
    </message>
    <message>
        <source>Who</source>
        <translation>Wer</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>Before</source>
        <translation>Vorher</translation>
    </message>
    <message>
        <source>After</source>
        <translation>Nachher</translation>
    </message>
</context>
<context>
    <name>Field</name>
    <message>
        <source>Number</source>
        <translation>Nummer</translation>
    </message>
    <message>
        <source>Collector</source>
        <translation>Sammler</translation>
    </message>
    <message>
        <source>Written down by</source>
        <translation>Aufgeschrieben von</translation>
    </message>
    <message>
        <source>Collected on</source>
        <translation>Gesammelt am</translation>
    </message>
    <message>
        <source>Site</source>
        <translation>Fundstelle</translation>
    </message>
    <message>
        <source>Larger area</source>
        <translation>Größeres Gebiet</translation>
    </message>
    <message>
        <source>Degrees north</source>
        <translation>Grad Nord</translation>
    </message>
    <message>
        <source>Degrees east</source>
        <translation>Grad Ost</translation>
    </message>
    <message>
        <source>Place known within, m</source>
        <translation>Ort bekannt auf, m</translation>
    </message>
    <message>
        <source>Place rounded to, degrees</source>
        <translation>Ort gerundet auf, Grad</translation>
    </message>
    <message>
        <source>Site kept back</source>
        <translation>Fundstelle zurückgehalten</translation>
    </message>
    <message>
        <source>Working name</source>
        <translation>Arbeitsname</translation>
    </message>
    <message>
        <source>Named by</source>
        <translation>Benannt von</translation>
    </message>
    <message>
        <source>Grew on</source>
        <translation>Wuchs auf</translation>
    </message>
    <message>
        <source>Surroundings</source>
        <translation>Umgebung</translation>
    </message>
    <message>
        <source>Tissue</source>
        <translation>Gewebe</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Zustand</translation>
    </message>
    <message>
        <source>Hours since picking</source>
        <translation>Stunden seit dem Pflücken</translation>
    </message>
    <message>
        <source>Deposit lies on</source>
        <translation>Abwurf liegt auf</translation>
    </message>
    <message>
        <source>Cap laid down</source>
        <translation>Hut aufgelegt</translation>
    </message>
    <message>
        <source>Cap lifted</source>
        <translation>Hut abgehoben</translation>
    </message>
    <message>
        <source>Under a cover</source>
        <translation>Unter einer Abdeckung</translation>
    </message>
    <message>
        <source>Drop on the cap</source>
        <translation>Tropfen auf dem Hut</translation>
    </message>
    <message>
        <source>State of the deposit</source>
        <translation>Zustand des Abwurfs</translation>
    </message>
    <message>
        <source>Hours until the photo</source>
        <translation>Stunden bis zum Foto</translation>
    </message>
    <message>
        <source>Form of the deposit</source>
        <translation>Form des Abwurfs</translation>
    </message>
    <message>
        <source>Thickness</source>
        <translation>Dicke</translation>
    </message>
    <message>
        <source>Grounds</source>
        <translation>Untergründe</translation>
    </message>
    <message>
        <source>Contrast ratio, %</source>
        <translation>Kontrastverhältnis, %</translation>
    </message>
    <message>
        <source>Contamination</source>
        <translation>Verunreinigung</translation>
    </message>
    <message>
        <source>Permit</source>
        <translation>Genehmigung</translation>
    </message>
    <message>
        <source>Licence</source>
        <translation>Lizenz</translation>
    </message>
    <message>
        <source>Remarks</source>
        <translation>Bemerkungen</translation>
    </message>
    <message>
        <source>added</source>
        <translation>hinzugefügt</translation>
    </message>
    <message>
        <source>removed</source>
        <translation>entfernt</translation>
    </message>
    <message>
        <source>brought back</source>
        <translation>zurückgeholt</translation>
    </message>
</context>
<context>
    <name>CatalogueJobs</name>
    <message>
        <source>No place is kept.</source>
        <translation>Es wird kein Ort behalten.</translation>
    </message>
    <message>
        <source>Kept in words, without coordinates.</source>
        <translation>In Worten behalten, ohne Koordinaten.</translation>
    </message>
    <message>
        <source>Kept as %1, %2 degrees (north, east)</source>
        <translation>Behalten als %1, %2 Grad (Nord, Ost)</translation>
    </message>
    <message>
        <source>, the site within %L1 km of it</source>
        <translation>, die Fundstelle höchstens %L1 km davon entfernt</translation>
    </message>
    <message>
        <source>A coarse export tells %1, %2 and no site.</source>
        <translation>Eine grobe Ausgabe nennt %1, %2 und keine Fundstelle.</translation>
    </message>
    <message>
        <source>A coarse export tells no coordinates and no site.</source>
        <translation>Eine grobe Ausgabe nennt weder Koordinaten noch Fundstelle.</translation>
    </message>
    <message>
        <source>Already there: nothing was added.</source>
        <translation>Schon vorhanden: nichts wurde hinzugefügt.</translation>
    </message>
    <message>
        <source>Added to the catalogue: %1 record(s) with %2 reading(s), %3 new collection(s).</source>
        <translation>In den Katalog aufgenommen: %1 Protokoll(e) mit %2 Messung(en), %3 neue Aufsammlung(en).</translation>
    </message>
    <message>
        <source>%1 collection(s) written to '%2'.</source>
        <translation>%1 Aufsammlung(en) nach „%2“ geschrieben.</translation>
    </message>
    <message>
        <source>Left out, as CGATS holds colours only: %1 collection(s) without one.</source>
        <translation>Weggelassen, weil CGATS nur Farben enthält: %1 Aufsammlung(en) ohne Farbe.</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::CataloguePage</name>
    <message>
        <source>Readings (%1)</source>
        <translation>Messungen (%1)</translation>
    </message>
    <message>
        <source>Collections (%1)</source>
        <translation>Aufsammlungen (%1)</translation>
    </message>
    <message>
        <source> – the first %1 of more</source>
        <translation> – die ersten %1 von mehr</translation>
    </message>
    <message>
        <source>There is no catalogue at %1 yet: adding a reading makes one.</source>
        <translation>Unter %1 gibt es noch keinen Katalog: Das Hinzufügen einer Messung legt ihn an.</translation>
    </message>
    <message>
        <source>There is no reading to look for: read a photo on the page 'One photo' first.</source>
        <translation>Es gibt keine Messung, nach der gesucht werden kann: Lies zuerst ein Foto auf der Seite „Ein Foto“.</translation>
    </message>
    <message>
        <source>like %1 of the photo: %2</source>
        <translation>wie %1 des Fotos: %2</translation>
    </message>
    <message>
        <source>any colour</source>
        <translation>jede Farbe</translation>
    </message>
    <message>
        <source>%1 (removed)</source>
        <translation>%1 (entfernt)</translation>
    </message>
    <message>
        <source>Taken back.</source>
        <translation>Zurückgenommen.</translation>
    </message>
    <message>
        <source>Kept; the value before stays in the history.</source>
        <translation>Behalten; der Wert davor bleibt im Verlauf.</translation>
    </message>
    <message>
        <source>Removed, not gone: 'Bring back' shows it again.</source>
        <translation>Entfernt, nicht verloren: „Zurückholen“ zeigt es wieder.</translation>
    </message>
    <message>
        <source>It is back.</source>
        <translation>Es ist wieder da.</translation>
    </message>
    <message>
        <source>Nothing of this collection was removed.</source>
        <translation>Von dieser Aufsammlung wurde nichts entfernt.</translation>
    </message>
    <message>
        <source>Nothing was changed here since the window opened.</source>
        <translation>Seit das Fenster offen ist, wurde hier nichts geändert.</translation>
    </message>
    <message>
        <source>There is no reading to add: read a photo on the page 'One photo' first.</source>
        <translation>Es gibt keine Messung zum Hinzufügen: Lies zuerst ein Foto auf der Seite „Ein Foto“.</translation>
    </message>
    <message>
        <source>Say the item, which is the collection's number, under 'About this photo' on the page 'One photo' first.</source>
        <translation>Nenne zuerst das Stück, also die Nummer der Aufsammlung, unter „Zu diesem Foto“ auf der Seite „Ein Foto“.</translation>
    </message>
    <message>
        <source>Choose readings or collections first; Ctrl and Shift choose several.</source>
        <translation>Wähle zuerst Messungen oder Aufsammlungen; Strg und Umschalt wählen mehrere.</translation>
    </message>
    <message>
        <source>Catalogue</source>
        <translation>Katalog</translation>
    </message>
    <message>
        <source>What was done</source>
        <translation>Was getan wurde</translation>
    </message>
    <message>
        <source>Readings and one collection</source>
        <translation>Messungen und eine Aufsammlung</translation>
    </message>
    <message>
        <source>Like the reading</source>
        <translation>Wie die Messung</translation>
    </message>
    <message>
        <source>Find what has the colour of the reading on the page 'One photo'</source>
        <translation>Finden, was die Farbe der Messung auf der Seite „Ein Foto“ hat</translation>
    </message>
    <message>
        <source>Like this row</source>
        <translation>Wie diese Zeile</translation>
    </message>
    <message>
        <source>Find what has the colour of the chosen row</source>
        <translation>Finden, was die Farbe der gewählten Zeile hat</translation>
    </message>
    <message>
        <source>Choose a row of readings that has a colour.</source>
        <translation>Wähle eine Zeile der Messungen, die eine Farbe hat.</translation>
    </message>
    <message>
        <source>like %1 of %2: %3</source>
        <translation>wie %1 von %2: %3</translation>
    </message>
    <message>
        <source>Add the reading</source>
        <translation>Messung aufnehmen</translation>
    </message>
    <message>
        <source>Add the record of the photo on the page 'One photo'; its item is the number</source>
        <translation>Das Protokoll des Fotos auf der Seite „Ein Foto“ aufnehmen; sein Stück ist die Nummer</translation>
    </message>
    <message>
        <source>Add records …</source>
        <translation>Protokolle …</translation>
    </message>
    <message>
        <source>Add record files to the catalogue</source>
        <translation>Protokolldateien in den Katalog aufnehmen</translation>
    </message>
    <message>
        <source>Records</source>
        <translation>Protokolle</translation>
    </message>
    <message>
        <source>Records (*.json)</source>
        <translation>Protokolle (*.json)</translation>
    </message>
    <message>
        <source>Side by side</source>
        <translation>Nebeneinander</translation>
    </message>
    <message>
        <source>Put what is chosen on the page 'Side by side'</source>
        <translation>Das Gewählte auf die Seite „Nebeneinander“ legen</translation>
    </message>
    <message>
        <source>Report …</source>
        <translation>Bericht …</translation>
    </message>
    <message>
        <source>Export …</source>
        <translation>Ausgeben …</translation>
    </message>
    <message>
        <source>Export</source>
        <translation>Ausgeben</translation>
    </message>
    <message>
        <source>Table (*.csv);;CGATS (*.cgats);;Darwin Core archive (*.zip);;Text for notes (*.txt);;Everything, one line a collection (*.jsonl);;Report (*.pdf)</source>
        <translation>Tabelle (*.csv);;CGATS (*.cgats);;Darwin-Core-Archiv (*.zip);;Text für Notizen (*.txt);;Alles, eine Zeile je Aufsammlung (*.jsonl);;Bericht (*.pdf)</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>Put the collection, or the chosen record, out of sight</source>
        <translation>Die Aufsammlung oder das gewählte Protokoll ausblenden</translation>
    </message>
    <message>
        <source>Bring back</source>
        <translation>Zurückholen</translation>
    </message>
    <message>
        <source>Show what was removed again</source>
        <translation>Entferntes wieder zeigen</translation>
    </message>
    <message>
        <source>Take back</source>
        <translation>Rückgängig</translation>
    </message>
    <message>
        <source>Undo the last change made on this page</source>
        <translation>Die letzte Änderung auf dieser Seite zurücknehmen</translation>
    </message>
    <message>
        <source>Any colour</source>
        <translation>Jede Farbe</translation>
    </message>
    <message>
        <source>Look for every colour again</source>
        <translation>Wieder nach jeder Farbe suchen</translation>
    </message>
    <message>
        <source>Back to the list</source>
        <translation>Zurück zur Liste</translation>
    </message>
    <message>
        <source>Leave the report's pages</source>
        <translation>Die Seiten des Berichts verlassen</translation>
    </message>
    <message>
        <source>Places in what leaves</source>
        <translation>Orte in dem, was hinausgeht</translation>
    </message>
    <message>
        <source>no places</source>
        <translation>keine Orte</translation>
    </message>
    <message>
        <source>coarse places</source>
        <translation>grobe Orte</translation>
    </message>
    <message>
        <source>exact places</source>
        <translation>genaue Orte</translation>
    </message>
    <message>
        <source>How much of the places an export or a report tells</source>
        <translation>Wie viel von den Orten eine Ausgabe oder ein Bericht nennt</translation>
    </message>
    <message>
        <source>Words</source>
        <translation>Worte</translation>
    </message>
    <message>
        <source>number, working name or colour</source>
        <translation>Nummer, Arbeitsname oder Farbe</translation>
    </message>
    <message>
        <source>Collector</source>
        <translation>Sammler</translation>
    </message>
    <message>
        <source>Tissue</source>
        <translation>Gewebe</translation>
    </message>
    <message>
        <source>From</source>
        <translation>Von</translation>
    </message>
    <message>
        <source>to</source>
        <translation>bis</translation>
    </message>
    <message>
        <source>Kind of region</source>
        <translation>Art des Bereichs</translation>
    </message>
    <message>
        <source>every kind</source>
        <translation>jede Art</translation>
    </message>
    <message>
        <source>Removed ones</source>
        <translation>Entfernte</translation>
    </message>
    <message>
        <source>List what was removed instead</source>
        <translation>Stattdessen zeigen, was entfernt wurde</translation>
    </message>
    <message>
        <source>Colour looked for, in words</source>
        <translation>Gesuchte Farbe in Worten</translation>
    </message>
    <message>
        <source>within ΔE00 </source>
        <translation>innerhalb ΔE00 </translation>
    </message>
    <message>
        <source>How near a colour has to be</source>
        <translation>Wie nah eine Farbe sein muss</translation>
    </message>
    <message>
        <source>Which catalogue</source>
        <translation>Welcher Katalog</translation>
    </message>
    <message>
        <source>Readings found</source>
        <translation>Gefundene Messungen</translation>
    </message>
    <message>
        <source>Collections found</source>
        <translation>Gefundene Aufsammlungen</translation>
    </message>
    <message>
        <source>Lists</source>
        <translation>Listen</translation>
    </message>
    <message>
        <source>Readings</source>
        <translation>Messungen</translation>
    </message>
    <message>
        <source>Collections</source>
        <translation>Aufsammlungen</translation>
    </message>
    <message>
        <source>No collection chosen</source>
        <translation>Keine Aufsammlung gewählt</translation>
    </message>
    <message>
        <source>Collection</source>
        <translation>Aufsammlung</translation>
    </message>
    <message>
        <source>Fields of the collection; F2 or a double click changes a value</source>
        <translation>Felder der Aufsammlung; F2 oder ein Doppelklick ändert einen Wert</translation>
    </message>
    <message>
        <source>Records of the collection</source>
        <translation>Protokolle der Aufsammlung</translation>
    </message>
    <message>
        <source>History of the collection</source>
        <translation>Verlauf der Aufsammlung</translation>
    </message>
    <message>
        <source>About the collection</source>
        <translation>Zur Aufsammlung</translation>
    </message>
    <message>
        <source>Fields</source>
        <translation>Felder</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>History</source>
        <translation>Verlauf</translation>
    </message>
    <message>
        <source>Write as PDF …</source>
        <translation>Als PDF schreiben …</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Bericht</translation>
    </message>
    <message>
        <source>Report (*.pdf)</source>
        <translation>Bericht (*.pdf)</translation>
    </message>
    <message>
        <source>Pictures from a folder …</source>
        <translation>Bilder aus einem Ordner …</translation>
    </message>
    <message>
        <source>Folder with the photographs, or their overlays</source>
        <translation>Ordner mit den Fotos oder ihren Übersichtsbildern</translation>
    </message>
    <message>
        <source>pictures from %1</source>
        <translation>Bilder aus %1</translation>
    </message>
    <message>
        <source>no pictures</source>
        <translation>keine Bilder</translation>
    </message>
    <message>
        <source>Pictures in the report</source>
        <translation>Bilder im Bericht</translation>
    </message>
    <message>
        <source>Ctrl+Alt+N</source>
        <translation>Ctrl+Alt+N</translation>
    </message>
    <message>
        <source>Ctrl+Alt+M</source>
        <translation>Ctrl+Alt+M</translation>
    </message>
    <message>
        <source>Ctrl+Alt+A</source>
        <translation>Ctrl+Alt+A</translation>
    </message>
    <message>
        <source>Ctrl+Alt+Shift+A</source>
        <translation>Ctrl+Alt+Shift+A</translation>
    </message>
    <message>
        <source>Ctrl+Alt+B</source>
        <translation>Ctrl+Alt+B</translation>
    </message>
    <message>
        <source>Ctrl+Alt+P</source>
        <translation>Ctrl+Alt+P</translation>
    </message>
    <message>
        <source>Ctrl+Alt+W</source>
        <translation>Ctrl+Alt+W</translation>
    </message>
    <message>
        <source>Shift+Del</source>
        <translation>Shift+Del</translation>
    </message>
    <message>
        <source>Ctrl+Alt+Y</source>
        <translation>Ctrl+Alt+Y</translation>
    </message>
    <message>
        <source>Ctrl+Alt+Z</source>
        <translation>Ctrl+Alt+Z</translation>
    </message>
    <message>
        <source>Ctrl+Alt+U</source>
        <translation>Ctrl+Alt+U</translation>
    </message>
    <message>
        <source>Ctrl+Backspace</source>
        <translation>Ctrl+Backspace</translation>
    </message>
    <message>
        <source>year-month-day</source>
        <translation>Jahr-Monat-Tag</translation>
    </message>
    <message>
        <source>See the report of the chosen rows, or of all that matches, and write it</source>
        <translation>Den Bericht über die gewählten Zeilen, sonst über alles Passende, ansehen und schreiben</translation>
    </message>
    <message>
        <source>Write the chosen rows, or all that matches, for other programs</source>
        <translation>Die gewählten Zeilen, sonst alles Passende, für andere Programme schreiben</translation>
    </message>
    <message>
        <source>Choose no row</source>
        <translation>Keine Zeile wählen</translation>
    </message>
    <message>
        <source>Ctrl+Alt+Shift+N</source>
        <translation>Ctrl+Alt+Shift+N</translation>
    </message>
    <message>
        <source>Leave every row unchosen, so that a report or an export takes all that matches</source>
        <translation>Keine Zeile gewählt lassen, damit Bericht und Export alles Passende nehmen</translation>
    </message>
    <message>
        <source>No collection matches, so there is nothing to write.</source>
        <translation>Keine Aufsammlung passt, also gibt es nichts zu schreiben.</translation>
    </message>
    <message>
        <source>%1: %2 chosen collection(s)</source>
        <translation>%1: %2 gewählte Aufsammlung(en)</translation>
    </message>
    <message>
        <source>%1: all %2 collection(s) that match, as no row is chosen</source>
        <translation>%1: alle %2 passenden Aufsammlung(en), da keine Zeile gewählt ist</translation>
    </message>
    <message>
        <source>The report is in English, whatever the window speaks.</source>
        <translation>Der Bericht ist auf Englisch, auch seine Vorschau hier.</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::PlaceField</name>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>Site</source>
        <translation>Fundstelle</translation>
    </message>
    <message>
        <source>the place itself; never in a coarse export</source>
        <translation>der Ort selbst; nie in einer groben Ausgabe</translation>
    </message>
    <message>
        <source>Larger area</source>
        <translation>Größeres Gebiet</translation>
    </message>
    <message>
        <source>county, range of hills; may always be told</source>
        <translation>Kreis, Höhenzug; darf immer genannt werden</translation>
    </message>
    <message>
        <source>Degrees north</source>
        <translation>Grad Nord</translation>
    </message>
    <message>
        <source>south is negative</source>
        <translation>Süden ist negativ</translation>
    </message>
    <message>
        <source>Degrees east</source>
        <translation>Grad Ost</translation>
    </message>
    <message>
        <source>west is negative</source>
        <translation>Westen ist negativ</translation>
    </message>
    <message>
        <source>How much of the coordinates is kept</source>
        <translation>Wie viel von den Koordinaten behalten wird</translation>
    </message>
    <message>
        <source>all that was typed</source>
        <translation>alles, was getippt wurde</translation>
    </message>
    <message>
        <source>0.01 degree: a wood, about 1 km</source>
        <translation>0,01 Grad: ein Wald, etwa 1 km</translation>
    </message>
    <message>
        <source>0.1 degree: a hill, about 11 km</source>
        <translation>0,1 Grad: ein Berg, etwa 11 km</translation>
    </message>
    <message>
        <source>1 degree: a landscape, about 110 km</source>
        <translation>1 Grad: eine Landschaft, etwa 110 km</translation>
    </message>
    <message>
        <source>Keep</source>
        <translation>Behalten</translation>
    </message>
    <message>
        <source>Never export this site</source>
        <translation>Diese Fundstelle nie ausgeben</translation>
    </message>
    <message>
        <source>What of the place is kept and told</source>
        <translation>Was vom Ort behalten und genannt wird</translation>
    </message>
    <message>
        <source>Keep this place</source>
        <translation>Diesen Ort behalten</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::ReportPreview</name>
    <message>
        <source>Pages of the report</source>
        <translation>Seiten des Berichts</translation>
    </message>
    <message>
        <source>%1 page(s)</source>
        <translation>%1 Seite(n)</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::SwatchChip</name>
    <message>
        <source>Colour looked for</source>
        <translation>Gesuchte Farbe</translation>
    </message>
    <message>
        <source>any</source>
        <translation>jede</translation>
    </message>
</context>
<context>
    <name>tintfall::viewer::UnsavedWork</name>
    <message>
        <source>Unsaved work</source>
        <translation>Ungespeicherte Arbeit</translation>
    </message>
    <message>
        <source>The work on &apos;%1&apos; is not saved.</source>
        <translation>Die Arbeit an „%1“ ist nicht gespeichert.</translation>
    </message>
    <message>
        <source>Regions and what you said about the photo go with it unless they are saved.</source>
        <translation>Bereiche und was du zum Foto gesagt hast, gehen verloren, wenn sie nicht gespeichert werden.</translation>
    </message>
    <message>
        <source>Save work</source>
        <translation>Arbeit speichern</translation>
    </message>
    <message>
        <source>Saved work (*.tintfall)</source>
        <translation>Gespeicherte Arbeit (*.tintfall)</translation>
    </message>
</context>
<context>
    <name>Errors</name>
    <message>
        <source>What was asked for cannot be meant.</source>
        <translation>So kann es nicht gemeint sein.</translation>
    </message>
    <message>
        <source>The photo is missing, empty, cut short, damaged or too large.</source>
        <translation>Das Foto fehlt, ist leer, abgeschnitten, beschädigt oder zu groß.</translation>
    </message>
    <message>
        <source>The file is of a kind that cannot serve as a photo.</source>
        <translation>Die Datei ist von einer Art, die nicht als Foto dienen kann.</translation>
    </message>
    <message>
        <source>The definition of the sheet is missing or wrong.</source>
        <translation>Die Beschreibung des Blattes fehlt oder ist fehlerhaft.</translation>
    </message>
    <message>
        <source>The values of the sheet are missing or wrong, or they are of another sheet.</source>
        <translation>Die Werte des Blattes fehlen, sind fehlerhaft oder gehören zu einem anderen Blatt.</translation>
    </message>
    <message>
        <source>The regions are missing or wrong, or one lies off the sheet or off the photo.</source>
        <translation>Die Bereiche fehlen, sind fehlerhaft, oder einer liegt neben Blatt oder Foto.</translation>
    </message>
    <message>
        <source>A record is missing or wrong.</source>
        <translation>Ein Protokoll fehlt oder ist fehlerhaft.</translation>
    </message>
    <message>
        <source>The catalogue is missing, damaged, none at all or of a newer version, or its server does not answer.</source>
        <translation>Der Katalog fehlt, ist beschädigt, gar keiner oder von einer neueren Fassung, oder sein Server antwortet nicht.</translation>
    </message>
    <message>
        <source>A table is missing or wrong.</source>
        <translation>Eine Tabelle fehlt oder ist fehlerhaft.</translation>
    </message>
    <message>
        <source>No sheet was found in the photo, or not enough of it.</source>
        <translation>Im Foto wurde kein Blatt gefunden, oder nicht genug davon.</translation>
    </message>
    <message>
        <source>No honest number can be given here.</source>
        <translation>Hier lässt sich keine ehrliche Zahl angeben.</translation>
    </message>
    <message>
        <source>It could not be written; what was there before is unchanged.</source>
        <translation>Es ließ sich nicht schreiben; was vorher da war, ist unverändert.</translation>
    </message>
    <message>
        <source>The work was stopped before its end.</source>
        <translation>Die Arbeit wurde vor ihrem Ende abgebrochen.</translation>
    </message>
    <message>
        <source>%1 In detail: %2</source>
        <translation>%1 Einzelheiten (englisch): %2</translation>
    </message>
</context>
<context>
    <name>Cautions</name>
    <message>
        <source>Caution</source>
        <translation>Vorsicht</translation>
    </message>
</context>
</TS>