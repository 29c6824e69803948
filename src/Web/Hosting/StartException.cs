namespace HeirloomArchive.Web.Hosting;

/// <summary>The service cannot start, for a reason that whoever started it can mend: the message says what and how.</summary>
public sealed class StartException(string message) : Exception(message);
