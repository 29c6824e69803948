using System.Globalization;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Hosting;
using HeirloomArchive.Worksheets;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Api;

/// <summary>Turns each refusal of a room into problem details (RFC 9457); nothing has been changed by then.</summary>
public sealed partial class Refusals(IProblemDetailsService problems, ArchiveSettings settings, ILogger<Refusals> log) : IExceptionHandler
{
    /// <inheritdoc />
    public async ValueTask<bool> TryHandleAsync(HttpContext httpContext, Exception exception, CancellationToken cancellationToken)
    {
        var problem = Describe(exception);
        if (problem is null && Outage.Of(exception, settings) is { } outage)
        {
            httpContext.Response.Headers.RetryAfter = outage.RetryAfter.ToString(CultureInfo.InvariantCulture);
            problem = Problem(outage.Status, outage.Title, outage.DetailFor(httpContext.Request.Method));
        }

        if (problem is null)
        {
            return false;
        }

        if (exception is WorkerDoesNotStartException)
        {
            NoWorker(exception.Message); // The paths in it are for the keeper of the log alone.
        }

        httpContext.Response.StatusCode = problem.Status!.Value;
        return await problems.TryWriteAsync(new() { HttpContext = httpContext, ProblemDetails = problem, Exception = exception });
    }

    private static ProblemDetails? Describe(Exception exception) => exception switch
    {
        DoesNotFitException e => Faulty(e, ("reason", e.Answer.Reason), ("nearest", FitAnswerJson.Write(e.Answer)["nearest"]?.DeepClone())),
        FaultException e => Faulty(e),
        NotFoundException e => Problem(404, "It is not in the archive.", e.Message),
        StaleException e => Problem(412, "The record has changed since it was read.",
            $"It is now at version {e.Version}; look at what differs, then send the change again with that version.",
            ("version", e.Version), ("differs", e.Differs.DeepClone())),
        TakenException e => Problem(409, "The number is taken.", e.Message,
            ("number", e.Number), ("garment", e.Garment), ("name", e.Name)),
        WordConflictException e => Problem(409, "The words stay as they are.", e.Message),
        SetAsideException e => Problem(409, "The piece is set aside.", e.Message),
        RefusedException e => Refused(e),
        OffsetException e => Problem(409, "It stands elsewhere by now.", e.Message, ("offset", e.Stands)),
        ChecksumException e => Problem(460, "The checksum does not agree.", e.Message),
        TooManyUploadsException e => Problem(429, "Too many at once.", e.Message),
        BadHttpRequestException e => Problem(e.StatusCode, Title(e.StatusCode), e.Message),
        _ => null,
    };

    private static ProblemDetails Faulty(FaultException e, params (string, object?)[] more)
    {
        var errors = e.Faults.GroupBy(f => f.Path).ToDictionary(g => g.Key, g => g.Select(f => f.Message).ToArray());
        return Problem(
            e.Unreadable ? 400 : 422,
            e.Unreadable ? "Something could not be read." : "Something makes no sense as it stands.",
            string.Join(" ", e.Faults.Take(3).Select(f => f.Path.Length == 0 ? f.Message : $"{f.Path}: {f.Message}")),
            [("errors", errors), .. more]);
    }

    private static ProblemDetails Refused(RefusedException e)
    {
        var errors = e.Refusals.GroupBy(r => r.Path).ToDictionary(g => g.Key, g => g.Select(r => r.Message).ToArray());
        var status = e.Refusals[0].Kind switch { RefusalKind.TooLarge => 413, RefusalKind.Foreign => 415, _ => 422 };
        return Problem(status, "Nothing of the upload was kept.", string.Join(" ", e.Refusals.Take(3).Select(r => $"{r.Path}: {r.Message}")), ("errors", errors));
    }

    private static ProblemDetails Problem(int status, string title, string detail, params (string Name, object? Value)[] more)
    {
        var problem = new ProblemDetails { Status = status, Title = title, Detail = detail };
        foreach (var (name, value) in more)
        {
            problem.Extensions[name] = value;
        }

        return problem;
    }

    private static string Title(int status) => status switch
    {
        412 => "Another version of the protocol.",
        413 => "Too large.",
        415 => "Not a kind of content that is read here.",
        428 => "Which version?",
        _ => "Something could not be read.",
    };

    [LoggerMessage(Level = LogLevel.Error, Message = "{What}")]
    private partial void NoWorker(string what);
}
