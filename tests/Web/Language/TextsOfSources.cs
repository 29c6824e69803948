using System.ComponentModel;
using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Operations;

namespace HeirloomArchive.Web.Tests.Language;

/// <summary>
/// Every English text that the sources ask a translation for: what stands in <c>T(…)</c>, <c>N(…)</c>, <c>H(…)</c>, <c>HN(…)</c>,
/// what is given to a parameter or property marked <see cref="LocalizableAttribute"/>, and tables marked <c>// texts</c>.
/// </summary>
internal static partial class TextsOfSources
{
    private static readonly CSharpParseOptions Newest = new(LanguageVersion.Preview);

    /// <summary>Those of a page's source, which is not C# as a whole: each call is read where it begins.</summary>
    public static IEnumerable<string> OfPage(string source) => Call().Matches(source)
        .Select(m => SyntaxFactory.ParseExpression(source, m.Index, Newest, consumeFullText: false))
        .SelectMany(e => e.DescendantNodesAndSelf().OfType<InvocationExpressionSyntax>()).SelectMany(OfCall);

    /// <summary>Those of a room's C#.</summary>
    /// <param name="room">Its folder in <c>src</c>.</param>
    /// <param name="files">Its sources.</param>
    public static IEnumerable<string> OfRoom(string room, IEnumerable<string> files)
    {
        SyntaxTree[] trees = [.. files.Select(f => CSharpSyntaxTree.ParseText(File.ReadAllText(f), Newest, f))];
        var shared = CSharpSyntaxTree.ParseText(string.Concat(((string[])["System", "System.IO", "System.Linq", "System.Collections.Generic", "System.Threading", "System.Threading.Tasks", "System.Net.Http", "Microsoft.AspNetCore.Builder", "Microsoft.AspNetCore.Http", "Microsoft.AspNetCore.Routing", "Microsoft.Extensions.DependencyInjection", "Microsoft.Extensions.Hosting", "Microsoft.Extensions.Logging", "Microsoft.Extensions.Configuration", "static HeirloomArchive.Sewing.Language.Texts"]).Select(n => $"global using {n};\n")), Newest);
        var others = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator)
            .Where(f => Path.GetFileName(f) != $"HeirloomArchive.{room}.dll").Select(f => (MetadataReference)MetadataReference.CreateFromFile(f));
        var whole = CSharpCompilation.Create(room, [.. trees, shared], others, new(OutputKind.DynamicallyLinkedLibrary));
        foreach (var tree in trees)
        {
            var model = whole.GetSemanticModel(tree);
            foreach (var node in tree.GetRoot().DescendantNodes())
            {
                foreach (var text in node is InvocationExpressionSyntax call && NameOf(call) is "T" or "N" ? OfCall((InvocationExpressionSyntax)node)
                    : node is ArgumentSyntax argument && IsText(model.GetOperation(argument)) ? Literals(argument.Expression)
                    : node is AssignmentExpressionSyntax set && IsText(model.GetSymbolInfo(set.Left).Symbol) ? Literals(set.Right)
                    : node is MemberDeclarationSyntax member and (FieldDeclarationSyntax or PropertyDeclarationSyntax or MethodDeclarationSyntax) && Marked().IsMatch(member.ToString()) ? Literals(member).Where(t => !Slug().IsMatch(t))
                    : [])
                {
                    yield return text;
                }
            }
        }
    }

    private static IEnumerable<string> OfCall(InvocationExpressionSyntax call) => NameOf(call) switch
    {
        "T" or "H" when call.ArgumentList.Arguments is [var said] => Literals(said.Expression),
        "N" or "HN" when call.ArgumentList.Arguments is [_, var one, var other] => Literals(one.Expression).Zip(Literals(other.Expression), (a, b) => $"{a}|{b}"),
        _ => [],
    };

    private static string NameOf(InvocationExpressionSyntax call) => call.Expression switch
    {
        IdentifierNameSyntax name => name.Identifier.Text,
        MemberAccessExpressionSyntax { Expression: IdentifierNameSyntax { Identifier.Text: "Texts" or "Markup" } } member => member.Name.Identifier.Text,
        _ => "",
    };

    private static bool IsText(IOperation? given) => given is IArgumentOperation { Parameter: { } parameter } && IsText(parameter);

    private static bool IsText(ISymbol? symbol) => symbol is not null && symbol.GetAttributes().Any(a => a.AttributeClass?.Name == nameof(LocalizableAttribute));

    // Of a pair the last is what is read, the others are names; what calls something else speaks for itself.
    private static IEnumerable<string> Literals(SyntaxNode node) => node switch
    {
        LiteralExpressionSyntax literal when literal.IsKind(SyntaxKind.StringLiteralExpression) => literal.Token.ValueText.Any(char.IsLetter) ? [literal.Token.ValueText] : [],
        InterpolatedStringExpressionSyntax said => [Key(said)],
        BinaryExpressionSyntax { RawKind: (int)SyntaxKind.AddExpression } sum when Folded(sum) is { } folded => [folded],
        TupleExpressionSyntax pair => pair.Arguments.Skip(1).SelectMany(a => Literals(a.Expression)),
        ConditionalExpressionSyntax choice => [.. Literals(choice.WhenTrue), .. Literals(choice.WhenFalse)],
        SwitchExpressionSyntax choice => choice.Arms.SelectMany(a => Literals(a.Expression)),
        InvocationExpressionSyntax or ElementAccessExpressionSyntax or AttributeListSyntax or PatternSyntax => node is InvocationExpressionSyntax call ? OfCall(call) : [],
        AssignmentExpressionSyntax { Left: ImplicitElementAccessSyntax } entry => Literals(entry.Right),
        _ => node.ChildNodes().SelectMany(Literals),
    };

    private static string? Folded(ExpressionSyntax sum) => sum switch
    {
        LiteralExpressionSyntax literal when literal.IsKind(SyntaxKind.StringLiteralExpression) => literal.Token.ValueText,
        BinaryExpressionSyntax { RawKind: (int)SyntaxKind.AddExpression } both when Folded(both.Left) is { } left && Folded(both.Right) is { } right => left + right,
        _ => null,
    };

    private static string Key(InterpolatedStringExpressionSyntax said)
    {
        var place = 0;
        return string.Concat(said.Contents.Select(part => part is InterpolatedStringTextSyntax words ? Words(words) : $"{{{place++}}}"));
    }

    // Braces of the text are doubled in the source, and so in a Sentence's key; a raw string has them single.
    private static string Words(InterpolatedStringTextSyntax words) =>
        ((InterpolatedStringExpressionSyntax)words.Parent!).StringStartToken.Kind() is SyntaxKind.InterpolatedSingleLineRawStringStartToken or SyntaxKind.InterpolatedMultiLineRawStringStartToken
            ? words.TextToken.ValueText.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal)
            : words.TextToken.ValueText;

    [GeneratedRegex(@"(?<![\w.])(T|N|H|HN)\(")]
    private static partial Regex Call();

    [GeneratedRegex(@"// texts\b")]
    private static partial Regex Marked();

    [GeneratedRegex(@"^[a-z][A-Za-z0-9]*(-[a-z0-9]+)*$")]
    private static partial Regex Slug();
}
