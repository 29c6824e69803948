var app = WebApplication.CreateBuilder(args).Build(); app.MapGet("/health/live", () => "live"); app.Run(); public partial class Program;
