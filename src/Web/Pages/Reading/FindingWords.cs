using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Dating;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>Findings, examinations and what became of them, in words.</summary>
public static class FindingWords
{
    /// <summary>What a finding asks for, 0 to 3.</summary>
    public static string Urgency(int urgency) => urgency switch
    {
        0 => T("No care asked for"),
        1 => T("Watch it"),
        2 => T("Care for it soon"),
        _ => T("See to it before handling"),
    };

    /// <summary>How it looked, in a line: "moderate, 4 in, getting worse"; "seen" where nothing more is recorded.</summary>
    public static string Look(Sighting seen)
    {
        ArgumentNullException.ThrowIfNull(seen);
        var words = new[]
        {
            Plain(seen.Entry["severity"]), seen.Entry["extent"]?.ToString() ?? "", Plain(seen.Entry["trend"]),
            !seen.IsEnded ? "" : seen.Entry["ended"]?["date"] is { } day ? T($"over by {DateInWords.Say(day.ToString())}") : T("over"),
        }.Where(w => w.Length > 0).ToList();
        return words.Count == 0 ? T("seen") : string.Join(", ", words);
    }

    /// <summary>When it was seen: "18 October 2026", "not dated".</summary>
    public static string Day(Sighting seen) => Day(seen?.Entry["date"] ?? seen?.Examined?.Entry["date"]);

    /// <summary>When a piece was looked over, and why: "18 October 2026, before class".</summary>
    public static string Title(Examined examination)
    {
        ArgumentNullException.ThrowIfNull(examination);
        var why = Plain(examination.Entry["why"]);
        return Day(examination.Entry["date"]) + (why is "" or "other" ? "" : $", {why}");
    }

    /// <summary>How the last look differs from the one before; empty where it does not, or there was one look only.</summary>
    public static string Change(FollowedFinding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return finding switch
        {
            { IsOver: true } => "",
            { CameBack: true } => T("It came back"),
            { Change: > 0, Sightings.Count: > 1 } => T("Worse than before"),
            { Change: > 0 } => T("Getting worse"),
            { Change: < 0 } => T("Better than before"),
            { Sightings.Count: > 1 } => T("As it was before"),
            _ => "",
        };
    }

    /// <summary>What became of it, as a heading over several.</summary>
    public static string Became(Became became) => became switch
    {
        Catalogue.Became.New => T("New"),
        Catalogue.Became.Worse => T("Worse"),
        Catalogue.Became.Better => T("Better"),
        Catalogue.Became.Same => T("The same"),
        Catalogue.Became.Ended => T("Over and done with"),
        _ => T("Not looked at again"),
    };

    private static string Plain(JsonNode? value) => value is null ? "" : Say.Plain(value.ToString()).ToLowerInvariant();

    private static string Day(JsonNode? date) => date is null ? T("not dated") : DateInWords.Say(date.ToString());
}

/// <summary>Whereabouts and hours of light, in words. To whom a piece went is private and never among them.</summary>
public static class CareWords
{
    /// <summary>"Lent since 3 May 2026, due back 1 June 2026: 12 days overdue"; what is here is "Here".</summary>
    public static string Say(Whereabouts at, JsonNode? since, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(at);
        var place = Reading.Say.Plain(at.Is);
        var words = since is null ? place : T($"{place} since {DateInWords.Say(since.ToString())}");
        return !at.IsDue ? words
            : at.DueBack is null ? T($"{words}, no day agreed to bring it back")
            : T($"{words}, due back {DateInWords.Say(at.DueBack)}{Left(at.DaysLeft(today))}");
    }

    /// <summary>Hours with their noun: "1 hour", "405.5 hours".</summary>
    public static string Hours(decimal hours) => N(hours == 1 ? 1 : 2, $"{Written.Number(hours)} hour", $"{Written.Number(hours)} hours");

    /// <summary>All showings in a sentence; empty where it was never shown.</summary>
    public static string Shown(Showings shown)
    {
        ArgumentNullException.ThrowIfNull(shown);
        var times = Times(shown.Times);
        return shown.Times == 0 ? ""
            : shown.HoursOfLight is not { } hours ? T($"Shown {times}; the hours of light are not recorded")
            : shown.WithoutHours == 0 ? T($"Shown {times}, {Hours(hours)} of light in all")
            : T($"Shown {times}, {Hours(hours)} of light in all; of {Times(shown.WithoutHours)} the hours are not recorded");
    }

    private static string Times(long times) => N(times, $"{Written.Number(times)} time", $"{Written.Number(times)} times");

    private static string Left(int? days) => days switch
    {
        null => "",
        0 => ": " + T("today"),
        1 => ": " + T("tomorrow"),
        > 1 => ": " + N(days.Value, $"in {days} day", $"in {days} days"),
        _ => ": " + N(-days.Value, $"{-days} day overdue", $"{-days} days overdue"),
    };
}
