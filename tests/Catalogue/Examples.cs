namespace HeirloomArchive.Catalogue.Tests;

/// <summary>Invented garments to send.</summary>
internal static class Examples
{
    /// <summary>The garment that the API's description shows, without its number.</summary>
    public const string BabyDress = """
        {"name":"Nainsook baby dress with a tucked yoke","kind":"baby-dress","dated":"1908~","overall":"fair",
         "techniques":[{"kind":"tucks","tuckKind":"pin","part":"yoke","groups":[{"tucks":6,"width":"1/16 in","space":"3/16 in"}],
           "runs":"down","measuredFrom":"centre-front","turned":"to-sides","side":"both","sewn":"hand","handStitch":"running",
           "evidence":{"stitchesPerInch":9,"note":"uneven, knots at both ends"},"sure":"certain"},
          {"kind":"tucks","tuckKind":"growth","part":"skirt","groups":[{"tucks":3,"width":"1/2 in","space":"1/4 in"}],"sewn":"machine-chainstitch","sure":"likely"},
          {"kind":"lace","lace":"torchon","part":"hem","form":"edging","set":["gathered"],"joined":"rolled-and-whipped","laceMade":"hand","width":"3/4 in"}],
         "condition":[{"date":"2026-10-18","part":"hem","what":"lace-come-away","extent":"4 in","severity":"moderate","attention":"soon","trend":"stable"}],
         "repairs":[{"part":"sleeve","method":"patch","sewn":"hand","when":"in-period"}]}
        """;

    /// <summary>A garment with every field of the table that can be sent with a new one.</summary>
    public const string Everything = """
        {"number":"E-001","name":"Lawn blouse with everything","kind":"blouse","dated":"1900/1910~","datedText":"before the first war",
         "where":{"text":"a coastal town","sure":"perhaps"},"maker":{"text":"the wearer","sure":"likely"},"wornBy":{"text":"a clerk","sure":"likely"},
         "occasion":{"text":"Sundays","sure":"certain"},"story":{"text":"kept in a drawer\nof one family","sure":"perhaps"},"made":"home","description":"A blouse.\nTwo lines.",
         "materials":[{"word":"lawn","fibre":"cotton","weave":"plain","use":"body","threadsPerInch":{"warp":88,"weft":84.5},"weight":"sheer","note":"fine"},
          {"word":{"own":"spotted net"},"threadsPerCm":{"warp":20,"weft":19}}],
         "measures":[{"name":"chest","length":"34 in","taken":"whole-round","byEye":true},{"name":"hem-round","length":"1 yd 4 1/2 in","taken":"drawn-up"}],
         "marks":[{"text":"M in red thread","part":"neck","side":"centre","face":"inside"}],
         "alterations":[{"what":"sleeves shortened","when":"about 1920","evidence":"a second line of holes"}],
         "overall":"fair","handling":"teacher-only","whereabouts":{"is":"lent","since":"2026-09-01","dueBack":"2026-12","to":"a school"},
         "shown":[{"from":"2026-02-01","to":"2026-02-14","where":"a class","hoursOfLight":12.5}],"tags":["blouse","teaching"],
         "examinations":[{"side":"left","face":"outside","at":"on the table","date":"2026-03-01","by":"the keeper","why":"yearly","light":"raking","overall":"fair","note":"nothing new"}],
         "condition":[{"part":"cuff","side":"right","face":"inside","at":"at the seam","date":"2026-03-01","what":"worn-thin","extent":"1/2 in","severity":"slight",
           "attention":"watch","trend":"stable","ended":{"date":"2026-05"},"note":"holds"}],
         "repairs":[{"part":"sleeve","side":"left","face":"inside","at":"elbow","method":"darn","sewn":"hand","handStitch":"running","when":"later","why":"mend",
           "holds":"holds","thread":"cotton","by":"unknown","note":"neat"}],
         "techniques":[
          {"part":"yoke","side":"both","face":"outside","at":"from the shoulder","kind":"tucks","sewn":"hand","handStitch":"running",
           "evidence":{"stitchesPerInch":9,"countedOver":"2 in","reverseSeen":true,"needleHoles":false,"knots":true,"regularity":"uneven","note":"knots"},
           "sure":"certain","remains":"whole","traces":["crease","needle-holes"],"repeats":[{"part":"sleeve","side":"both","mirrored":true}],"note":"the best",
           "tuckKind":"pin","groups":[{"tucks":5,"width":"1/8 in","space":"1/4 in","stitchToStitch":"1/2 in","foldToFold":"5/8 in"},{"tucks":3,"width":"1/4 in"}],
           "between":["1 in"],"lead":"2 in","trail":"0 in","runs":"down","measuredFrom":"shoulder","turned":"down","sewnLength":"4 in",
           "over":{"run":"6 in","widthLeast":"1/16 in","widthMost":"1/8 in","tucks":8},"needleGap":"2 mm","cord":"1.5 mm","depthAtPoint":"1/2 in","depthAtHollow":"1/4 in",
           "widthAtStart":"1/2 in","widthAtEnd":"0 in","shells":24,"depthLost":"1/16 in","drawnIn":"1/2 in"},
          {"kind":"tucks","centre":"1 in","turned":"to-sides","groups":[{"tucks":2}],"evidence":{"stitchesPerCm":4}},
          {"kind":"lace","lace":"torchon","laceMade":"hand","form":"edging","width":"3/4 in","ground":"torchon ground","repeat":"1 in","set":["flat","mitred"],"joined":"whipped-edge-to-edge","ribbon":"later"},
          {"kind":"embroidered-trim","trim":"swiss-edging"},
          {"kind":"whitework","work":"ayrshire","stitches":["running","chain"],"motif":"flower","thread":"cotton no. 80"},
          {"kind":"seam","seam":"french","width":"1/4 in"},{"kind":"hem","hemKind":"rolled","depth":"1/8 in"},
          {"kind":"fastening","fastening":"button","count":6,"size":"9 mm","space":"2 in","original":true},
          {"kind":"gathers","depth":"1 in","flat":"40 in","finished":"20 in","cut":"bias","rows":2},
          {"kind":"smocking","rows":8,"rowSpace":"1/4 in","dotSpace":"1/4 in","stitches":["feather"]},
          {"kind":"entredeux","width":"1/8 in","holesPerInch":14},{"kind":"binding","width":"1/4 in","depth":"1/8 in"},{"kind":{"own":"knotting"}}],
         "acquired":{"when":"2020","from":"a fair","price":"12","insuredFor":"100","papers":"a receipt"},"place":{"shelf":"B2","box":"7"}}
        """;
}
