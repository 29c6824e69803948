using HeirloomArchive.Search;

namespace HeirloomArchive.Outside.Tests;

/// <summary>
/// The search's stems against the sample vocabulary that M. F. Porter published with his algorithm ("An algorithm for suffix stripping",
/// Program 14 no. 3, 1980; voc.txt and output.txt of the algorithm's page), as the npm package porter-stemmer 0.9.1 carries it in
/// test/input.txt and test/output.txt. Words that we cut or spell otherwise before the stem is taken are left out, and few.
/// </summary>
public sealed class StemmingTests
{
    [Fact]
    public void Every_word_of_the_published_vocabulary_has_the_published_stem()
    {
        var folder = Path.Combine(Folder(), "node_modules", "porter-stemmer", "test");
        var pairs = File.ReadLines(Path.Combine(folder, "input.txt")).Zip(File.ReadLines(Path.Combine(folder, "output.txt")))
            .Select(p => (Word: p.First.Trim(), Stem: p.Second.Trim())).Where(p => p.Word.Length > 0).ToList();
        var checkedWords = 0;
        foreach (var (word, stem) in pairs)
        {
            if (word.Contains('\'', StringComparison.Ordinal) || Spelling.British(word) != word)
            {
                continue;
            }

            Assert.Equal((word, stem), (word, Assert.Single(Analysis.Tokens(word)).Stem));
            checkedWords++;
        }

        Assert.InRange(pairs.Count, 23_000, 24_000);
        Assert.InRange(checkedWords, pairs.Count - 400, pairs.Count);
    }

    private static string Folder() => typeof(StemmingTests).Assembly.GetCustomAttributes(typeof(System.Reflection.AssemblyMetadataAttribute), false)
        .Cast<System.Reflection.AssemblyMetadataAttribute>().Single(a => a.Key == "OutsideFolder").Value!;
}
